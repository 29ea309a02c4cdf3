//! People as lists show them: who they are, how to reach them, and whether they are here yet.

use time::OffsetDateTime;

use crate::domain::dates::counted;
use crate::domain::vocabulary::{Role, Word};
use crate::ids::MembershipId;
use crate::store::membership::Membership;
use crate::store::{Result, Tx, link_token, sign_in};

/// One person of a list.
#[derive(Debug)]
pub struct Person {
    /// Their membership.
    pub id: MembershipId,
    /// Their name.
    pub name: String,
    /// Their role's label.
    pub role: &'static str,
    /// A telephone number, or empty.
    pub phone: String,
    /// An address to write to, or empty.
    pub email: String,
    /// Whether they have taken their place up.
    pub has_come: bool,
    /// Whether it is the person who reads the page.
    pub is_me: bool,
    /// Where they stand.
    pub state: State,
}

/// Where somebody stands, in words and with the colour of the pill.
#[derive(Debug, PartialEq, Eq)]
pub struct State {
    /// The pill's colour.
    pub colour: &'static str,
    /// The words.
    pub words: String,
}

/// People with their states; `me` is who reads.
pub async fn load(
    tx: &mut Tx,
    members: Vec<Membership>,
    me: MembershipId,
    now: OffsetDateTime,
) -> Result<Vec<Person>> {
    let waiting = link_token::waiting(tx, now).await?;
    let devices = sign_in::counts(tx, now).await?;
    let people = members.into_iter().map(|member| {
        let has_come = member.joined_at.is_some();
        let device = if member.role == Role::Owner { ("phone", "phones") } else { ("device", "devices") };
        let signed_in_on = devices.get(&member.id).copied().unwrap_or_default();
        Person {
            id: member.id,
            name: member.name,
            role: member.role.label(),
            phone: member.phone,
            email: member.email,
            has_come,
            is_me: member.id == me,
            state: state(has_come, waiting.contains(&member.id), signed_in_on, device),
        }
    });
    Ok(people.collect())
}

fn state(has_come: bool, waiting: bool, devices: i64, device: (&str, &str)) -> State {
    let (colour, words) = match (has_come, waiting, devices) {
        (false, true, _) => ("tarn", "Invited, link not opened yet".to_owned()),
        (false, false, _) => ("gorse", "Link has run out: make a new one".to_owned()),
        (true, true, 0) => ("tarn", "New link not opened yet".to_owned()),
        (true, false, 0) => ("", "Signed out".to_owned()),
        (true, _, n) => ("moss", format!("Signed in on {}", counted(n, device.0, device.1))),
    };
    State { colour, words }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_state_has_its_words() {
        let words = |come, waiting, devices| state(come, waiting, devices, ("phone", "phones")).words;
        assert_eq!(words(false, true, 0), "Invited, link not opened yet");
        assert_eq!(words(false, false, 0), "Link has run out: make a new one");
        assert_eq!(words(true, true, 0), "New link not opened yet");
        assert_eq!(words(true, false, 0), "Signed out");
        assert_eq!(words(true, false, 1), "Signed in on 1 phone");
        assert_eq!(words(true, true, 3), "Signed in on 3 phones");
    }
}
