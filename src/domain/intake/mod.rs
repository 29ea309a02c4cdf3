//! What a household tells before the first lesson: its pages, what they hold, what it agrees to, and what follows.
//!
//! Every answer may be left open. `None` and empty texts mean "not stated", never "no".

pub mod answers;
pub mod consent;
mod kept_word;
pub mod takeover;
pub mod triage;

use super::vocabulary::Word;

/// One page of the intake, in the order in which they are asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum IntakePage {
    /// Who lives there.
    Home,
    /// Where the dog is from, and since when it is here.
    Dog,
    /// When teeth touched somebody.
    Teeth,
    /// What was tried.
    Tried,
    /// Food and sleep.
    Food,
    /// Vet, medicines, health.
    Health,
    /// Hours alone, and the week.
    Week,
    /// What a good month would look like.
    Goal,
}

impl Word for IntakePage {
    const ALL: &'static [Self] =
        &[Self::Home, Self::Dog, Self::Teeth, Self::Tried, Self::Food, Self::Health, Self::Week, Self::Goal];

    fn stored(self) -> &'static str {
        match self {
            Self::Home => "home",
            Self::Dog => "dog",
            Self::Teeth => "teeth",
            Self::Tried => "tried",
            Self::Food => "food",
            Self::Health => "health",
            Self::Week => "week",
            Self::Goal => "goal",
        }
    }

    /// What owners read; trainers read the same, so that both speak of one page.
    fn label(self) -> &'static str {
        match self {
            Self::Home => "Who lives with you",
            Self::Dog => "Where your dog is from",
            Self::Teeth => "Teeth on skin",
            Self::Tried => "What you have tried",
            Self::Food => "Food and sleep",
            Self::Health => "Vet and health",
            Self::Week => "Your week",
            Self::Goal => "A good month",
        }
    }
}

impl IntakePage {
    /// The page after this one; `None` after the last.
    pub fn next(self) -> Option<Self> {
        Self::ALL.iter().copied().skip_while(|page| *page != self).nth(1)
    }

    /// The page before this one; `None` before the first.
    pub fn back(self) -> Option<Self> {
        Self::ALL.iter().copied().take_while(|page| *page != self).last()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pages_lead_on_and_back() {
        let mut page = IntakePage::Home;
        let mut walked = vec![page];
        while let Some(next) = page.next() {
            assert_eq!(next.back(), Some(page));
            page = next;
            walked.push(page);
        }
        assert_eq!(walked, IntakePage::ALL);
        assert_eq!(IntakePage::Home.back(), None);
    }
}
