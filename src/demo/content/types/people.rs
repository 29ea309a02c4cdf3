//! Who there is: the practice, its trainers, households, and what they say.

use super::dog::{DaysAgo, Dog};

/// The whole practice.
#[derive(Debug)]
pub struct Practice {
    /// Name of the business.
    pub name: &'static str,
    /// IANA time zone.
    pub zone: &'static str,
    /// One line on what it does.
    pub about: &'static str,
    /// Lead first.
    pub trainers: &'static [Trainer],
    /// In the order they are loaded.
    pub households: &'static [Household],
}

/// A trainer.
#[derive(Debug)]
pub struct Trainer {
    /// Unique among people.
    pub key: &'static str,
    /// Full name.
    pub name: &'static str,
    /// Sign-in address, at a reserved example domain.
    pub email: &'static str,
    /// From the range reserved for drama.
    pub phone: &'static str,
    /// Runs the practice.
    pub lead: bool,
    /// Answers stops when nobody else does.
    pub duty: bool,
    /// A line about them.
    pub about: &'static str,
}

/// A household and its dogs.
#[derive(Debug)]
pub struct Household {
    /// Unique among households.
    pub key: &'static str,
    /// The family's name, "Pryce".
    pub name: &'static str,
    /// Where they live and who is at home, for the trainer.
    pub about: &'static str,
    /// Ages in years of children at home.
    pub children: &'static [u8],
    /// The first one is who writes most.
    pub owners: &'static [Owner],
    /// Their dogs that are in training.
    pub dogs: &'static [Dog],
}

/// An owner.
#[derive(Debug)]
pub struct Owner {
    /// Unique among people.
    pub key: &'static str,
    /// Full name.
    pub name: &'static str,
    /// From the range reserved for drama.
    pub phone: &'static str,
    /// Of ten sittings, how many this owner does; sums to 10 in a household.
    pub share: u8,
}

/// Words from somebody on a day: a message, or a trainer's private note.
#[derive(Debug, Clone, Copy)]
pub struct Message {
    /// When.
    pub days_ago: DaysAgo,
    /// Key of the writer.
    pub from: &'static str,
    /// The words.
    pub words: &'static str,
    /// Whether it is about the sitting that was logged last.
    pub about_the_last: bool,
}
