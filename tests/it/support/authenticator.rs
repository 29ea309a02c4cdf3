//! A phone that makes and uses one passkey, as far as the service can tell: ES256, no attestation (Web Authentication
//! Level 3, 6 and 8.7). Whatever a phone must not do, a test can make this one do.

use base64::Engine;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use p256::ecdsa::signature::Signer;
use p256::ecdsa::{Signature, SigningKey};
use serde_json::{Value, json};
use sha2::{Digest, Sha256};

use super::world::PLAIN;

const USER_PRESENT: u8 = 0x01;
const USER_VERIFIED: u8 = 0x04;
const HAS_CREDENTIAL: u8 = 0x40;

/// One phone with one passkey.
#[derive(Clone)]
pub struct Authenticator {
    key: SigningKey,
    credential: [u8; 16],
    /// Whom the passkey says that it is of.
    pub user: Value,
    /// How often it has been used.
    pub counter: u32,
    /// The page it believes to be on.
    pub origin: String,
    /// Whether it asks for the phone's own lock.
    pub verifies: bool,
}

impl Authenticator {
    /// A phone on one of our pages.
    pub fn new() -> Self {
        Self {
            key: SigningKey::from_slice(&rand::random::<[u8; 32]>()).expect("a key"),
            credential: rand::random(),
            user: Value::Null,
            counter: 1,
            origin: PLAIN.to_owned(),
            verifies: true,
        }
    }

    /// Makes the passkey that a challenge asks for.
    pub fn make(&mut self, challenge: &Value) -> Value {
        let asked = &challenge["publicKey"];
        self.user = asked["user"]["id"].clone();
        let client = self.client_data("webauthn.create", &asked["challenge"]);
        let mut data = self.data(&asked["rp"]["id"], HAS_CREDENTIAL);
        data.extend([0; 16]);
        data.extend([0, 16]);
        data.extend(self.credential);
        data.extend(self.public_key());
        let mut object = b"\xa3\x63fmt\x64none\x67attStmt\xa0\x68authData\x58".to_vec();
        object.push(u8::try_from(data.len()).expect("short"));
        object.extend(data);
        let response = json!({ "attestationObject": text(&object), "clientDataJSON": text(&client) });
        self.answer(response)
    }

    /// Uses the passkey for a challenge.
    pub fn use_for(&mut self, challenge: &Value) -> Value {
        let asked = &challenge["publicKey"];
        let client = self.client_data("webauthn.get", &asked["challenge"]);
        self.counter += 1;
        let data = self.data(&asked["rpId"], 0);
        let signed: Signature = self.key.sign(&[data.as_slice(), &Sha256::digest(&client)].concat());
        self.answer(json!({
            "authenticatorData": text(&data),
            "clientDataJSON": text(&client),
            "signature": text(signed.to_der().as_bytes()),
            "userHandle": self.user,
        }))
    }

    fn answer(&self, response: Value) -> Value {
        let id = text(&self.credential);
        json!({ "id": id, "rawId": id, "type": "public-key", "response": response, "clientExtensionResults": {} })
    }

    fn client_data(&self, kind: &str, challenge: &Value) -> Vec<u8> {
        let said =
            json!({ "type": kind, "challenge": challenge, "origin": self.origin, "crossOrigin": false });
        said.to_string().into_bytes()
    }

    fn data(&self, party: &Value, more: u8) -> Vec<u8> {
        let verified = if self.verifies { USER_VERIFIED } else { 0 };
        let mut data = Sha256::digest(party.as_str().expect("the party's name")).to_vec();
        data.push(USER_PRESENT | verified | more);
        data.extend(self.counter.to_be_bytes());
        data
    }

    /// The public key as COSE writes it (RFC 9053, 7.1.1).
    fn public_key(&self) -> Vec<u8> {
        let point = self.key.verifying_key().to_sec1_point(false);
        let (x, y) = (point.x().expect("a point"), point.y().expect("a point"));
        [b"\xa5\x01\x02\x03\x26\x20\x01\x21\x58\x20".as_slice(), x, b"\x22\x58\x20", y].concat()
    }
}

fn text(bytes: &[u8]) -> String {
    URL_SAFE_NO_PAD.encode(bytes)
}
