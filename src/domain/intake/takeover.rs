//! Taking what the household says into a dog's profile: empty fields are filled, texts are added to, and what is stated
//! already is never overwritten. A bite on record stays on record.

use super::answers::Incident;

/// A text of the profile, of at most `most` characters, with what the intake says added; `None` where that changes
/// nothing or does not fit: the intake itself keeps it all.
pub fn added(profile: &str, intake: &str, most: usize) -> Option<String> {
    let intake = intake.trim();
    if intake.is_empty() || holds(profile, intake) {
        return None;
    }
    let text = match profile.trim() {
        "" => intake.to_owned(),
        _ => format!("{}\n{intake}", profile.trim_end()),
    };
    (text.chars().count() <= most).then_some(text)
}

/// Whether a text holds these lines already, so that taking twice adds once.
fn holds(profile: &str, intake: &str) -> bool {
    let lines: Vec<&str> = profile.lines().map(str::trim).collect();
    intake.lines().map(str::trim).filter(|line| !line.is_empty()).all(|line| lines.contains(&line))
}

/// Whether a bite is on record after the intake: it stays where it was, and every incident that was told sets it, also one
/// of which nobody has said whether skin was broken.
pub fn bite_on_record(profile: bool, incidents: &[Incident]) -> bool {
    profile || incidents.iter().any(|incident| !incident.is_blank())
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn what_does_not_fit_is_left_in_the_intake() {
        assert_eq!(added("abc", "def", 7).as_deref(), Some("abc\ndef"));
        assert_eq!(added("abc", "def", 6), None);
    }

    #[test]
    fn no_incident_leaves_a_bite_on_record() {
        assert!(bite_on_record(true, &[]));
        assert!(!bite_on_record(false, &[Incident::default()]));
        let told = Incident { whom: "a guest".to_owned(), ..Incident::default() };
        assert!(bite_on_record(false, &[told]));
    }

    proptest! {
        #[test]
        fn what_the_profile_said_is_still_there(profile in "[a-z \n]{0,40}", intake in "[a-z \n]{0,40}") {
            if let Some(text) = added(&profile, &intake, 200) {
                prop_assert!(text.starts_with(profile.trim_end()) || profile.trim().is_empty());
                prop_assert_eq!(added(&text, &intake, 200), None);
            }
        }
    }
}
