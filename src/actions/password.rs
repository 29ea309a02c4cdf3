//! Passwords: what may be one, and how they are kept.
//!
//! At least 15 characters when the password is the only factor, no composition rules, stored exactly as typed
//! (NIST SP 800-63B-4 3.1.1.2). argon2id with 19 MiB, 2 passes, 1 lane (OWASP Password Storage Cheat Sheet).

use std::sync::Arc;

use argon2::password_hash::phc::PasswordHash;
use argon2::{Algorithm, Argon2, Params, PasswordHasher, PasswordVerifier, Version};
use tokio::sync::Semaphore;

/// The fewest characters of a password that is the only factor.
pub const SHORTEST: usize = 15;
/// The most; far above what anybody types, so that hashing stays cheap.
const LONGEST: usize = 256;
/// How many passwords are hashed at once: each takes 19 MiB and one core.
const AT_ONCE: usize = 2;
/// How many more may wait for their turn: some seconds' work. Whoever comes after them is asked to try again.
const WAITING: usize = 32;

/// Hashes and checks passwords, a few at a time, away from the threads that serve requests.
#[derive(Clone, Debug)]
pub struct Hasher {
    room: Arc<Semaphore>,
    places: Arc<Semaphore>,
}

impl Default for Hasher {
    fn default() -> Self {
        Self { room: Arc::new(Semaphore::new(AT_ONCE + WAITING)), places: Arc::new(Semaphore::new(AT_ONCE)) }
    }
}

/// A password could not be hashed or checked.
#[derive(Debug, thiserror::Error)]
pub enum HashingFailed {
    /// Too many wait already; it works again in a little while.
    #[error("too many passwords wait to be hashed")]
    Busy,
    /// It broke.
    #[error("password hashing failed: {0}")]
    Broken(String),
}

impl HashingFailed {
    fn broken(error: impl ToString) -> Self {
        Self::Broken(error.to_string())
    }
}

fn argon2() -> Result<Argon2<'static>, HashingFailed> {
    let params = Params::new(19 * 1024, 2, 1, None).map_err(HashingFailed::broken)?;
    Ok(Argon2::new(Algorithm::Argon2id, Version::V0x13, params))
}

impl Hasher {
    async fn run<T: Send + 'static>(
        &self,
        work: impl FnOnce() -> Result<T, HashingFailed> + Send + 'static,
    ) -> Result<T, HashingFailed> {
        let room = Arc::clone(&self.room).try_acquire_owned().map_err(|_| HashingFailed::Busy)?;
        let place = Arc::clone(&self.places).acquire_owned().await.map_err(HashingFailed::broken)?;
        // The work goes on when the request is dropped, so it is the work that holds the place.
        let work = move || {
            let _held = (room, place);
            work()
        };
        tokio::task::spawn_blocking(work).await.map_err(HashingFailed::broken)?
    }

    /// The hash to keep, in PHC form.
    pub async fn hash(&self, password: String) -> Result<String, HashingFailed> {
        self.run(move || {
            argon2()?
                .hash_password(password.as_bytes())
                .map(|hash| hash.to_string())
                .map_err(HashingFailed::broken)
        })
        .await
    }

    /// Whether the password is the one that was hashed. Where there is no hash the same work is done, so that time
    /// does not tell whether an address is known.
    pub async fn verify(&self, password: String, kept: Option<String>) -> Result<bool, HashingFailed> {
        self.run(move || {
            let hasher = argon2()?;
            let Some(kept) = kept else {
                let _same_work = hasher.hash_password(password.as_bytes());
                return Ok(false);
            };
            let hash = PasswordHash::new(&kept).map_err(HashingFailed::broken)?;
            Ok(hasher.verify_password(password.as_bytes(), &hash).is_ok())
        })
        .await
    }
}

/// What is wrong with a new password, if anything. `own` are words that it must not merely be: the address, the
/// names of person and practice.
pub fn objection(password: &str, own: &[&str]) -> Option<String> {
    let length = password.chars().count();
    if length < SHORTEST {
        return Some(format!(
            "Use at least {SHORTEST} characters. Four or five words in a row are easy to keep."
        ));
    }
    if length > LONGEST {
        return Some(format!("Use at most {LONGEST} characters."));
    }
    let plain = |text: &str| text.to_lowercase().chars().filter(|c| c.is_alphanumeric()).collect::<String>();
    let bare = plain(password);
    let distinct = bare.chars().collect::<std::collections::BTreeSet<_>>().len();
    if distinct < 4 || is_repeated(&bare) || is_run(&bare) {
        return Some(
            "This is easy to guess: it repeats itself. Use words that do not belong together.".into(),
        );
    }
    let guessable =
        own.iter().map(|w| plain(w)).filter(|w| w.len() >= 4).any(|w| bare == w || bare == w.repeat(2));
    if guessable || COMMON.contains(&bare.as_str()) {
        return Some(
            "This is one of the first things somebody would try. Use words that only you would think of."
                .into(),
        );
    }
    None
}

/// Whether a text is one short piece again and again.
fn is_repeated(text: &str) -> bool {
    let chars: Vec<char> = text.chars().collect();
    (1..=chars.len() / 2)
        .any(|n| chars.len().is_multiple_of(n) && chars.chunks(n).all(|piece| piece == &chars[..n]))
}

/// Whether a text walks up or down the alphabet or the digits.
fn is_run(text: &str) -> bool {
    let steps: Vec<i64> = text.chars().zip(text.chars().skip(1)).map(|(a, b)| b as i64 - a as i64).collect();
    steps.len() >= 8
        && (steps.iter().all(|s| *s == 1 || *s == -9) || steps.iter().all(|s| *s == -1 || *s == 9))
}

/// Long passwords that are tried first: known phrases and keyboard rows, letters and digits only (from memory).
const COMMON: [&str; 24] = [
    "correcthorsebatterystaple",
    "qwertyuiopasdfgh",
    "qwertyuiopasdfghjkl",
    "qwertyuiopasdfghjklzxcvbnm",
    "1qaz2wsx3edc4rfv",
    "1qaz2wsx3edc4rfv5tgb",
    "1q2w3e4r5t6y7u8i",
    "1q2w3e4r5t6y7u8i9o0p",
    "thequickbrownfox",
    "thequickbrownfoxjumps",
    "thequickbrownfoxjumpsoverthelazydog",
    "passwordpassword1",
    "password123456789",
    "password1234567890",
    "mypasswordispassword",
    "thisismypassword",
    "iloveyousomuch123",
    "letmeinletmeinplease",
    "administrator123",
    "administratoradmin",
    "welcometothejungle",
    "maytheforcebewithyou",
    "tobeornottobethatisthequestion",
    "settlebrooksettlebrook",
];

#[cfg(test)]
mod tests {
    use std::future::poll_fn;
    use std::pin::Pin;
    use std::sync::{Mutex, mpsc};
    use std::task::Poll;

    use super::*;

    #[test]
    fn length_alone_decides_and_not_composition() {
        assert!(objection("fourteen chars", &[]).is_some());
        assert!(objection("heath lark fog 9", &[]).is_none());
        assert!(objection("8301946275510387", &[]).is_none());
        assert!(objection(&"heath lark fog ".repeat(13), &[]).is_some(), "a repeat");
        assert!(
            objection(
                &"é long walk over the heath ".chars().chain("x".repeat(160).chars()).collect::<String>(),
                &[]
            )
            .is_none()
        );
    }

    #[test]
    fn guessable_ones_are_refused() {
        for text in
            ["aaaaaaaaaaaaaaaa", "abcabcabcabcabcabc", "123456789012345", "Correct Horse Battery Staple"]
        {
            assert!(objection(text, &[]).is_some(), "{text}");
        }
        assert!(objection("ada@example.org!", &["ada@example.org"]).is_some());
    }

    /// RFC 9106 section 5.3, Argon2id test vector.
    #[test]
    fn argon2id_matches_the_rfc() {
        let params = argon2::ParamsBuilder::new()
            .m_cost(32)
            .t_cost(3)
            .p_cost(4)
            .data(argon2::AssociatedData::new(&[4; 12]).expect("twelve bytes fit"))
            .output_len(32)
            .build()
            .expect("the RFC's parameters are valid");
        let hasher =
            Argon2::new_with_secret(&[3; 8], Algorithm::Argon2id, Version::V0x13, params).expect("valid");
        let mut out = [0_u8; 32];
        hasher.hash_password_into(&[1; 32], &[2; 16], &mut out).expect("hashes");
        let hex: String = out.iter().map(|b| format!("{b:02x}")).collect();
        assert_eq!(hex, "0d640df58d78766c08c037a34a8b53c9d01ef0452d75b65eb52520e96b01e659");
    }

    /// Polls a future once.
    async fn begin<F: Future + Unpin>(future: &mut F) -> Poll<F::Output> {
        poll_fn(|context| Poll::Ready(Pin::new(&mut *future).poll(context))).await
    }

    #[tokio::test]
    async fn work_whose_request_was_dropped_holds_its_place_and_few_may_wait() {
        let hasher = Hasher::default();
        let (finish, finished) = mpsc::channel::<()>();
        let finished = Arc::new(Mutex::new(finished));
        for _ in 0..AT_ONCE {
            let finished = Arc::clone(&finished);
            let mut request = Box::pin(hasher.run(move || {
                let _until_told = finished.lock().map(|gate| gate.recv());
                Ok(())
            }));
            assert!(begin(&mut request).await.is_pending());
        }
        assert_eq!(hasher.places.available_permits(), 0, "the work goes on");
        let mut waiting: Vec<_> = (0..WAITING).map(|_| Box::pin(hasher.run(|| Ok(())))).collect();
        for request in &mut waiting {
            assert!(begin(request).await.is_pending());
        }
        assert!(matches!(hasher.run(|| Ok(())).await, Err(HashingFailed::Busy)));
        waiting.pop();
        let mut next = Box::pin(hasher.run(|| Ok(())));
        assert!(begin(&mut next).await.is_pending(), "whoever gives up makes room");
        drop(finish);
        drop(waiting); // a place that is given to somebody who never comes is held
        next.await.expect("runs in the end");
    }

    #[tokio::test]
    async fn a_kept_password_is_known_again_to_the_letter() {
        let hasher = Hasher::default();
        let kept = hasher.hash(" Heath lark fog 9".into()).await.expect("hashes");
        assert!(kept.starts_with("$argon2id$v=19$m=19456,t=2,p=1$"), "{kept}");
        assert!(hasher.verify(" Heath lark fog 9".into(), Some(kept.clone())).await.expect("checks"));
        assert!(!hasher.verify("Heath lark fog 9".into(), Some(kept)).await.expect("checks"));
        assert!(!hasher.verify("Heath lark fog 9".into(), None).await.expect("checks"));
    }
}
