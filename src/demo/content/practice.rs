//! The practice and its three trainers.

use super::households;
use super::types::{Practice, Trainer};

/// The invented practice.
pub const PRACTICE: Practice = Practice {
    name: "Alderlow Dog Training",
    zone: "Europe/London",
    about: "Kind, practical training for dogs and the people on the other end of the lead.",
    trainers: &[
        Trainer {
            key: "morwenna",
            name: "Morwenna Tallis",
            email: "morwenna@alderlow.example",
            phone: "07700 900101",
            lead: true,
            duty: true,
            about: "Runs the practice. Worried dogs, bite histories, and owners who have been told off enough.",
        },
        Trainer {
            key: "desmond",
            name: "Desmond Achterberg",
            email: "desmond@alderlow.example",
            phone: "07700 900102",
            lead: false,
            duty: false,
            about: "Long lines, recall and anything that chases. Usually in a field with wet knees.",
        },
        Trainer {
            key: "yusra",
            name: "Yusra Penhale",
            email: "yusra@alderlow.example",
            phone: "07700 900103",
            lead: false,
            duty: false,
            about: "Puppies, families, older dogs and dogs that find being alone hard.",
        },
    ],
    households: households::ALL,
};
