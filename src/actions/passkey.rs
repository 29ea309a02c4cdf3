//! The service as the party that passkeys are made for: makes challenges and checks the answers.
//!
//! A passkey is bound to the host and the origin of the configured address. User verification (the phone's own lock) is
//! required, so that a passkey proves as much as a password and a device together; a counter that does not rise is
//! refused (Web Authentication Level 3, 7.2).

use serde_json::Value;
use time::Duration;
use webauthn_rs::prelude::{
    CreationChallengeResponse, DiscoverableAuthentication, Passkey, PasskeyRegistration,
    RequestChallengeResponse, Url, Webauthn, WebauthnBuilder,
};

use crate::actions::Refusal;
use crate::ids::AccountId;

pub use webauthn_rs::prelude::{PublicKeyCredential, RegisterPublicKeyCredential};

/// How long a challenge may be answered.
pub const ANSWER_WITHIN: Duration = Duration::minutes(5);
/// What browsers say the passkey is for.
const PARTY: &str = "Settlebrook";
/// What to do when an answer does not fit.
const NOT_TAKEN: Refusal = Refusal::Field {
    field: "passkey",
    message: "This passkey was not taken. Try again, or use another way to sign in.",
};
/// What to do when a challenge is gone.
pub(super) const TOO_LATE: Refusal =
    Refusal::Field { field: "passkey", message: "That took too long, or was sent twice. Try once more." };

/// The service under one address.
#[derive(Debug)]
pub struct RelyingParty {
    webauthn: Webauthn,
}

/// What a new passkey is made of.
pub(super) struct Made {
    /// The id that the authenticator gave it.
    pub credential: Vec<u8>,
    /// What is kept of it.
    pub key: Value,
}

impl RelyingParty {
    /// The service under `base_url`; `None` where its host is a number: a passkey needs a name.
    pub fn at(base_url: &str) -> Option<Self> {
        let origin = Url::parse(base_url).ok()?;
        let host = origin.domain()?.to_owned();
        let webauthn = WebauthnBuilder::new(&host, &origin).ok()?.rp_name(PARTY).build().ok()?;
        Some(Self { webauthn })
    }

    /// A challenge to make a passkey that the browser can find by itself later, and the state to check the answer with.
    pub(super) fn begin_adding(
        &self,
        account: AccountId,
        name: &str,
        held: Vec<Vec<u8>>,
    ) -> Result<(CreationChallengeResponse, Value), Refusal> {
        let (mut challenge, state) =
            self.webauthn.start_passkey_registration(account.0, name, name, Some(held)).map_err(refused)?;
        if let Some(wanted) = &mut challenge.public_key.authenticator_selection {
            wanted.require_resident_key = true;
            wanted.resident_key = serde_json::from_str("\"required\"").ok();
        }
        Ok((challenge, kept(&state)?))
    }

    /// The passkey that answers the challenge.
    pub(super) fn finish_adding(
        &self,
        answer: &RegisterPublicKeyCredential,
        state: Value,
    ) -> Result<Made, Refusal> {
        let state: PasskeyRegistration = read(state)?;
        let key = self.webauthn.finish_passkey_registration(answer, &state).map_err(refused)?;
        Ok(Made { credential: key.cred_id().to_vec(), key: kept(&key)? })
    }

    /// A challenge that any passkey made here can answer, and the state to check the answer with.
    pub(super) fn begin_sign_in(&self) -> Result<(RequestChallengeResponse, Value), Refusal> {
        let (challenge, state) = self.webauthn.start_discoverable_authentication().map_err(refused)?;
        Ok((challenge, kept(&state)?))
    }

    /// Checks an answer against the passkey that it names; gives the passkey with its counter as it is now.
    pub(super) fn finish_sign_in(
        &self,
        answer: &PublicKeyCredential,
        state: Value,
        account: AccountId,
        key: Value,
    ) -> Result<Value, Refusal> {
        let state: DiscoverableAuthentication = read(state)?;
        let mut key: Passkey = read(key)?;
        let (user, _) = self.webauthn.identify_discoverable_authentication(answer).map_err(refused)?;
        if user != account.0 {
            return Err(NOT_TAKEN);
        }
        let done =
            self.webauthn.finish_discoverable_authentication_v2(answer, state, &key).map_err(refused)?;
        key.update_credential(&done);
        kept(&key)
    }
}

/// An answer that does not fit: the reason is logged, not told.
fn refused(error: webauthn_rs::prelude::WebauthnError) -> Refusal {
    tracing::warn!(%error, "a passkey was refused");
    NOT_TAKEN
}

/// A passkey that is unknown, removed or somebody else's is refused in the same words as one whose answer does not fit.
pub(super) fn unknown() -> Refusal {
    NOT_TAKEN
}

fn kept(value: &impl serde::Serialize) -> Result<Value, Refusal> {
    serde_json::to_value(value).map_err(|_| NOT_TAKEN)
}

/// A state of another kind, such as one for adding shown to sign in, is no answer to this.
fn read<T: serde::de::DeserializeOwned>(value: Value) -> Result<T, Refusal> {
    serde_json::from_value(value).map_err(|_| NOT_TAKEN)
}

#[cfg(test)]
mod tests {
    use super::RelyingParty;

    #[test]
    fn a_passkey_needs_a_name_and_not_a_number() {
        for good in ["https://dogs.example.org", "https://dogs.example.org:8443", "http://localhost:8080"] {
            assert!(RelyingParty::at(good).is_some(), "{good}");
        }
        for bad in ["http://127.0.0.1:8080", "http://[::1]:8080", "https://192.0.2.7", ""] {
            assert!(RelyingParty::at(bad).is_none(), "{bad}");
        }
    }
}
