//! Taking what the household says into a dog's profile. A bite on record stays on record.

use super::answers::Incident;

/// Whether a bite is on record after the intake: it stays where it was, and every incident that was told sets it, also one
/// of which nobody has said whether skin was broken.
pub fn bite_on_record(profile: bool, incidents: &[Incident]) -> bool {
    profile || incidents.iter().any(|incident| !incident.is_blank())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_incident_leaves_a_bite_on_record() {
        assert!(bite_on_record(true, &[]));
        assert!(!bite_on_record(false, &[Incident::default()]));
        let told = Incident { whom: "a guest".to_owned(), ..Incident::default() };
        assert!(bite_on_record(false, &[told]));
    }
}
