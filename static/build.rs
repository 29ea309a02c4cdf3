//! Packs `static/` into the binary: hashed names, compressed once, served from memory.
fn main() {
    memory_serve::load_directory("static/files");
    println!("cargo:rerun-if-changed=static/files");
    println!("cargo:rerun-if-changed=migrations");
}
