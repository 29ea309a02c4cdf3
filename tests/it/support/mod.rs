//! What tests stand on: a database each, the whole service over it, people with browsers, and the checks that every
//! answer they get must pass.

pub mod answer;
#[cfg(feature = "passkeys")]
pub mod authenticator;
pub mod bad_values;
pub mod browser;
pub mod builders;
pub mod database;
pub mod drawing;
pub mod every_form;
pub mod headers;
pub mod html;
pub mod lived_in;
pub mod oracle;
pub mod people;
pub mod settings;

pub mod stage;
pub mod statements;
pub mod walk;
pub mod walker;
pub mod walls;
pub mod words;
pub mod world;

pub use answer::Answer;
pub use browser::Browser;
pub use lived_in::LivedIn;
pub use people::Practice;
pub use walker::Walker;
pub use world::World;
