//! Passwords: argon2id, slow on purpose and therefore not on the threads that answer requests.

use argon2::{Argon2, PasswordHasher as _, PasswordVerifier as _};

/// Fewest characters of a password. NIST SP 800-63B (2017) asks for 8 at least and no rules on their kind; from memory.
pub const FEWEST_CHARACTERS: usize = 10;

/// Most bytes, so that nobody keeps the server busy with one.
const MOST_BYTES: usize = 512;

/// A hash to compare with where there is no account, so that the answer takes as long.
const NOBODY: &str =
    "$argon2id$v=19$m=19456,t=2,p=1$c2FsdHNhbHRzYWx0c2FsdA$q5ZIxuVfSR1W8yTQ6PqP8WTdpJQ1ZwZZUOc0kbX6e4E";

/// What is wrong with a new password, in words.
pub fn fault(password: &str) -> Option<String> {
    if password.chars().count() < FEWEST_CHARACTERS {
        return Some(format!("a password has at least {FEWEST_CHARACTERS} characters"));
    }
    (password.len() > MOST_BYTES).then(|| format!("a password has at most {MOST_BYTES} bytes"))
}

/// What is kept of a password.
pub async fn hash(password: String) -> Result<String, String> {
    tokio::task::spawn_blocking(move || {
        Argon2::default()
            .hash_password(password.as_bytes())
            .map(|hash| hash.to_string())
            .map_err(|error| error.to_string())
    })
    .await
    .map_err(|error| error.to_string())?
}

/// Whether it is the password; `None` as hash: nobody's, which takes as long.
pub async fn is_right(password: String, hash: Option<String>) -> bool {
    if password.len() > MOST_BYTES {
        return false;
    }
    let somebody = hash.is_some();
    let hash = hash.unwrap_or_else(|| NOBODY.to_owned());
    let verified = tokio::task::spawn_blocking(move || {
        Argon2::default().verify_password(password.as_bytes(), hash.as_str()).is_ok()
    })
    .await
    .unwrap_or(false);
    somebody && verified
}

#[cfg(test)]
mod tests {
    use super::*;

    #[tokio::test]
    async fn only_the_password_itself_is_right() {
        let hashed = hash("correct horse".to_owned()).await.unwrap();
        assert!(hashed.starts_with("$argon2id$"));
        assert!(is_right("correct horse".to_owned(), Some(hashed.clone())).await);
        assert!(!is_right("correct Horse".to_owned(), Some(hashed)).await);
        assert!(!is_right("correct horse".to_owned(), None).await);
        assert!(!is_right(String::new(), Some(String::new())).await, "an account without a password lets nobody in");
        assert_ne!(hash("correct horse".to_owned()).await.unwrap(), hash("correct horse".to_owned()).await.unwrap());
    }

    #[test]
    fn short_and_endless_passwords_are_faulty() {
        assert!(fault("123456789").is_some());
        assert!(fault("1234567890").is_none());
        assert!(fault("ööööööööö").is_some(), "characters, not bytes");
        assert!(fault(&"a".repeat(513)).is_some());
    }
}
