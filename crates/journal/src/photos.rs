//! Photos that have come whole: what is known of their files. The files themselves lie in a folder.

use jiff::Timestamp;
use model::record::happened::Position;
use sqlx::{AssertSqlSafe, Row as _};

use crate::append::damaged;
use crate::chain::Digest;
use crate::journal::{Journal, JournalError};
use crate::key::{micros, time};
use crate::rows::{places, runs};

/// The file of a photo.
#[derive(Debug, Clone, PartialEq)]
pub struct PhotoFile {
    /// SHA-256 of it.
    pub digest: Digest,
    /// Its type, as it was sent.
    pub media_type: String,
    /// Length.
    pub bytes: u64,
    /// Where it was taken, as the camera wrote into it.
    pub place: Option<Position>,
    /// When all of it had come.
    pub finished_at: Timestamp,
}

impl Journal {
    /// Writes down that a photo has come whole. Once is enough: what was written first stays.
    pub async fn keep_photo(&self, photo: &PhotoFile) -> Result<(), JournalError> {
        let place = photo.place.map(|place| serde_json::to_string(&place)).transpose();
        let place = place.map_err(|error| damaged(0, &error.to_string()))?.unwrap_or_default();
        sqlx::query(
            "INSERT INTO photo (digest, media_type, size, finished_at, place) VALUES ($1, $2, $3, $4, $5) \
             ON CONFLICT (digest) DO NOTHING",
        )
        .bind(photo.digest.to_vec())
        .bind(photo.media_type.as_str())
        .bind(photo.bytes.cast_signed())
        .bind(micros(photo.finished_at))
        .bind(place)
        .execute(&self.pool)
        .await?;
        Ok(())
    }

    /// The files of these photos, as far as they have come, in the order of their digests.
    pub async fn photos(&self, digests: &[Digest]) -> Result<Vec<PhotoFile>, JournalError> {
        let mut wanted = digests.to_vec();
        wanted.sort_unstable();
        wanted.dedup();
        let mut photos = Vec::new();
        for run in runs(&wanted) {
            let sql = format!(
                "SELECT digest, media_type, size, finished_at, place FROM photo WHERE digest IN {} ORDER BY digest",
                places(self.backend, 1, run.len())
            );
            let mut query = sqlx::query(AssertSqlSafe(sql));
            for digest in run {
                query = query.bind(digest.to_vec());
            }
            for row in query.fetch_all(&self.pool).await? {
                let digest = row.get::<Vec<u8>, _>(0).try_into();
                let place: &str = row.get(4);
                photos.push(PhotoFile {
                    digest: digest.map_err(|_| damaged(0, "a photo's digest is not 32 bytes long"))?,
                    media_type: row.get(1),
                    bytes: row.get::<i64, _>(2).cast_unsigned(),
                    place: if place.is_empty() {
                        None
                    } else {
                        Some(serde_json::from_str(place).map_err(|error| damaged(0, &error.to_string()))?)
                    },
                    finished_at: time(row.get(3)),
                });
            }
        }
        Ok(photos)
    }
}
