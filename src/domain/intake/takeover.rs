//! Taking what the household says into a dog's profile: empty fields are filled, texts are added to, and what is stated
//! already is never overwritten. A bite on record stays on record.

use super::answers::Incident;

/// A text of the profile with what the intake says added; `None` where that changes nothing.
pub fn added(profile: &str, intake: &str) -> Option<String> {
    let intake = intake.trim();
    if intake.is_empty() || holds(profile, intake) {
        return None;
    }
    if profile.trim().is_empty() {
        return Some(intake.to_owned());
    }
    Some(format!("{}\n{intake}", profile.trim_end()))
}

/// Whether a text holds these lines already, so that taking twice adds once.
fn holds(profile: &str, intake: &str) -> bool {
    let lines: Vec<&str> = profile.lines().map(str::trim).collect();
    intake.lines().map(str::trim).filter(|line| !line.is_empty()).all(|line| lines.contains(&line))
}

/// A fact of the profile filled from the intake; `None` where it is stated already, or the intake does not state it.
pub fn filled<T>(profile: Option<&T>, intake: Option<T>) -> Option<T> {
    if profile.is_some() { None } else { intake }
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
    fn a_stated_fact_is_not_overwritten() {
        assert_eq!(filled(Some(&3), Some(4)), None);
        assert_eq!(filled(None, Some(4)), Some(4));
        assert_eq!(filled::<i32>(None, None), None);
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
            if let Some(text) = added(&profile, &intake) {
                prop_assert!(text.starts_with(profile.trim_end()) || profile.trim().is_empty());
                prop_assert_eq!(added(&text, &intake), None);
            }
        }
    }
}
