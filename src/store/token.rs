//! Secrets that people hold: made at random, shown once, kept only as a hash.

use base64::Engine;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use sha2::{Digest, Sha256};

/// A secret of 256 random bits, as text for a cookie or a link.
#[derive(Clone)]
pub struct Token(String);

/// What is kept of a token: SHA-256. The token has full entropy, so no slow hash is needed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TokenHash([u8; 32]);

impl Token {
    /// A fresh token.
    pub fn fresh() -> Self {
        Self(URL_SAFE_NO_PAD.encode(rand::random::<[u8; 32]>()))
    }

    /// A token that somebody showed; `None` when it cannot be one of ours.
    pub fn shown(text: &str) -> Option<Self> {
        let bytes = URL_SAFE_NO_PAD.decode(text).ok()?;
        (bytes.len() == 32).then(|| Self(text.to_owned()))
    }

    /// The text to put into a cookie or a link.
    pub fn text(&self) -> &str {
        &self.0
    }

    /// The hash to keep or to look for.
    pub fn hash(&self) -> TokenHash {
        TokenHash(Sha256::digest(self.0.as_bytes()).into())
    }
}

impl TokenHash {
    /// The bytes, as the database keeps them.
    pub fn bytes(&self) -> &[u8] {
        &self.0
    }

    /// The bytes as hexadecimal digits.
    pub fn hex(&self) -> String {
        self.0.iter().map(|byte| format!("{byte:02x}")).collect()
    }
}

impl std::fmt::Debug for Token {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Token(hidden)")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_token_is_found_again_by_its_text_alone() {
        let token = Token::fresh();
        let again = Token::shown(token.text()).map(|t| t.hash());
        assert_eq!(again, Some(token.hash()));
        assert_eq!(token.hash().hex().len(), 64);
    }

    #[test]
    fn other_text_is_no_token() {
        for text in ["", "short", "0190a0b0-0000-7000-8000-000000000000", "not base64 at all"] {
            assert!(Token::shown(text).is_none(), "{text}");
        }
    }

    #[test]
    fn debug_output_hides_the_token() {
        let token = Token::fresh();
        assert!(!format!("{token:?}").contains(token.text()));
    }
}
