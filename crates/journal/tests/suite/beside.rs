//! What is kept beside the events: people, passes, contacts, jobs, the trail; and backups of all of it.

use std::fs;

use crate::common::Place;
use crate::common::histories::{history, number};
use jiff::{SignedDuration, Timestamp, ToSpan as _};
use journal::audit::Done;
use journal::backup;
use journal::chain::{hexadecimal, sha256};
use journal::contacts::Contact;
use journal::jobs::JobState;
use journal::people::{Account, Pass, PassKind, Role, digest_of_secret};
use journal::{JournalError, Query};
use rand::SeedableRng as _;
use rand_pcg::Pcg64Mcg;
use tempfile::TempDir;

fn now() -> Timestamp {
    "2026-05-06T12:00:00Z".parse().unwrap()
}

fn mara(random: &mut Pcg64Mcg) -> Account {
    Account {
        id: number(random),
        name: "mara".into(),
        role: Role::Engineer,
        password: "$argon2id$...".into(),
        crew: String::new(),
        closed: false,
    }
}

#[tokio::test]
async fn passes_end_and_those_that_work_once_work_once() {
    for place in Place::all().await {
        let journal = place.open().await;
        let mut random = Pcg64Mcg::seed_from_u64(1);
        let account = mara(&mut random);
        assert!(journal.make_account(&account, now()).await.unwrap());
        let again = Account { id: number(&mut random), ..account.clone() };
        assert!(!journal.make_account(&again, now()).await.unwrap(), "one of that name");
        assert_eq!(journal.account_named("mara").await.unwrap().as_ref(), Some(&account));
        assert_eq!(journal.account_named("mara' OR 1=1 --").await.unwrap(), None);

        let digest = digest_of_secret("open sesame");
        let pass = Pass {
            kind: PassKind::Session,
            account: Some(account.id),
            name: "browser".into(),
            ends_at: now() + 12.hours(),
        };
        journal.give_pass(&digest, &pass, now()).await.unwrap();
        assert_eq!(journal.pass(&digest, now()).await.unwrap().as_ref(), Some(&pass));
        assert_eq!(journal.pass(&digest, now() + 12.hours()).await.unwrap(), None, "ended");
        assert_eq!(journal.use_up(&digest, PassKind::SetUp, now()).await.unwrap(), None, "for something else");

        let link = digest_of_secret("link");
        let set_up = Pass { kind: PassKind::SetUp, account: None, ..pass.clone() };
        journal.give_pass(&link, &set_up, now()).await.unwrap();
        let uses = futures_util::future::join_all(
            (0..8).map(|_| async { journal.use_up(&link, PassKind::SetUp, now()).await.unwrap().is_some() }),
        );
        assert_eq!(uses.await.into_iter().filter(|used| *used).count(), 1, "once");

        let closed = Account { closed: true, ..account.clone() };
        journal.change_account(&closed, now()).await.unwrap();
        assert_eq!(journal.pass(&digest, now()).await.unwrap(), None, "a closed account's sessions end");
        assert!(journal.account(account.id).await.unwrap().unwrap().closed);
        assert_eq!(journal.forget_ended_passes(now() + 100.hours()).await.unwrap(), 1);
    }
}

#[tokio::test]
async fn contacts_are_forgotten_in_time() {
    for place in Place::all().await {
        let journal = place.open().await;
        let id = number(&mut Pcg64Mcg::seed_from_u64(1));
        let contact = Contact { name: "Ada Holm".into(), email: "ada@example.org".into(), phone: String::new() };
        journal.keep_contact(id, &contact, now(), now() + 24.hours()).await.unwrap();
        assert_eq!(journal.contact(id, now()).await.unwrap(), Some(contact));
        assert_eq!(journal.contact(id, now() + 24.hours()).await.unwrap(), None);
        assert_eq!(journal.forget_contacts(now()).await.unwrap(), 0);
        assert_eq!(journal.forget_contacts(now() + 24.hours()).await.unwrap(), 1);
        assert!(!journal.forget_contact(id).await.unwrap());
    }
}

#[tokio::test]
async fn a_job_is_done_once_and_taken_up_when_its_worker_is_gone() {
    let hold = SignedDuration::from_secs(30);
    for place in Place::all().await {
        let journal = place.open().await;
        let mut random = Pcg64Mcg::seed_from_u64(1);
        let ids = [number(&mut random), number(&mut random)];
        for (second, id) in (0_i64..).zip(&ids) {
            journal.ask_for(*id, "plan", "{}", "mara", now() + second.seconds()).await.unwrap();
        }
        let later = now() + 5.seconds();
        let taken = futures_util::future::join_all((0..4).map(|_| journal.take_job(later, hold))).await;
        let mut taken: Vec<_> = taken.into_iter().filter_map(|job| job.unwrap().map(|job| job.id)).collect();
        taken.sort_unstable();
        let mut both = ids;
        both.sort_unstable();
        assert_eq!(taken, both, "each once");
        assert!(journal.hold_job(ids[0], 0.5, "half of it", later, hold).await.unwrap());
        assert_eq!(journal.job(ids[0]).await.unwrap().unwrap().progress, 0.5);
        assert!(journal.end_job(ids[0], Ok("{\"cost\":1}"), later).await.unwrap());
        assert!(!journal.end_job(ids[0], Ok("{\"cost\":2}"), later).await.unwrap(), "ended before");
        // the other's worker is gone
        assert_eq!(journal.take_job(later + 29.seconds(), hold).await.unwrap(), None);
        let mut at = later;
        for _ in 0..2 {
            at += 31.seconds();
            assert_eq!(journal.take_job(at, hold).await.unwrap().unwrap().id, ids[1]);
        }
        assert_eq!(journal.take_job(at + 31.seconds(), hold).await.unwrap(), None, "tried often enough");
        let given_up = journal.job(ids[1]).await.unwrap().unwrap();
        assert_eq!(given_up.state, JobState::Failed);
        assert!(!journal.stop_job(ids[1], later).await.unwrap());
        assert_eq!(journal.last_jobs().await.unwrap().len(), 2);
    }
}

#[tokio::test]
async fn the_trail_is_chained() {
    for place in Place::all().await {
        let journal = place.open().await;
        for what in ["sign_in", "export", "sign_out"] {
            let done = Done {
                who: "mara".into(),
                device: "browser".into(),
                what: what.into(),
                to: "<b>'\"".into(),
                allowed: true,
            };
            journal.note(&done, now()).await.unwrap();
        }
        assert_eq!(journal.trail_after(1, 10).await.unwrap().len(), 2);
        assert_eq!(journal.follow_audit().await.unwrap().unwrap().0, 3);
        sqlx::query("UPDATE audit SET body = replace(body, 'export', 'import') WHERE position = 2")
            .execute(journal.pool())
            .await
            .unwrap();
        assert_eq!(journal.follow_audit().await.unwrap().unwrap_err().position, 2);
    }
}

#[tokio::test]
async fn a_backup_of_one_store_fills_any_other() {
    let folder = TempDir::new().unwrap();
    let photos = folder.path().join("photos");
    let content = b"not really a photo";
    let name = hexadecimal(&sha256(content));
    let photo = backup::photo_path(&photos, &name).unwrap();
    fs::create_dir_all(photo.parent().unwrap()).unwrap();
    fs::write(&photo, content).unwrap();
    let mut first = None;
    for (index, from) in Place::all().await.iter().enumerate() {
        let journal = from.open().await;
        let mut random = Pcg64Mcg::seed_from_u64(2);
        journal.append(history(&mut random, 80), now()).await.unwrap();
        journal.make_account(&mara(&mut random), now()).await.unwrap();
        let file = folder.path().join(format!("backup-{index}.zip"));
        let written = backup::write(&journal, &photos, &file, now(), &mut |_| ()).await.unwrap();
        assert_eq!(backup::verify(&file).unwrap(), written);
        for to in Place::all().await {
            let other = to.open().await;
            let new_photos = folder.path().join(format!("photos-{index}"));
            backup::restore(&other, &new_photos, &file, &mut |_| ()).await.unwrap();
            assert_eq!(other.head().await.unwrap(), journal.head().await.unwrap());
            let page = other.page(&Query::all("repair", 100)).await.unwrap();
            assert_eq!(&page, first.get_or_insert_with(|| page.clone()));
            assert_eq!(page.rows.len(), 3);
            assert_eq!(fs::read(backup::photo_path(&new_photos, &name).unwrap()).unwrap(), content);
            assert!(other.account_named("mara").await.unwrap().is_some());
            // and goes on
            other.append(history(&mut random, 10), now()).await.unwrap();
            assert!(other.follow_events().await.unwrap().is_ok());
            let again = backup::restore(&other, &new_photos, &file, &mut |_| ()).await.unwrap_err();
            assert!(again.to_string().contains("not empty"), "{again}");
        }
    }
}

#[test]
fn a_damaged_backup_is_found_and_a_name_that_leaves_the_folder_is_none() {
    let folder = TempDir::new().unwrap();
    let file = folder.path().join("backup.zip");
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap();
    runtime.block_on(async {
        let place = Place::file();
        let journal = place.open().await;
        journal.append(history(&mut Pcg64Mcg::seed_from_u64(4), 50), now()).await.unwrap();
        backup::write(&journal, &folder.path().join("none"), &file, now(), &mut |_| ()).await.unwrap();
    });
    let whole = fs::read(&file).unwrap();
    let mut found = 0;
    for at in (0..whole.len()).step_by(997) {
        let mut damaged = whole.clone();
        damaged[at] ^= 0x10;
        fs::write(&file, &damaged).unwrap();
        match backup::verify(&file) {
            Err(JournalError::File(_)) => found += 1,
            Err(other) => panic!("{other}"),
            // a byte that says nothing of the content, such as a time in the archive's directory
            Ok(_) => {}
        }
    }
    assert!(found > 3, "{found}");
    fs::write(&file, &whole[..whole.len() / 2]).unwrap();
    assert!(backup::verify(&file).is_err(), "cut off");
    for name in ["../../etc/passwd", "photos/../x", "", &"A".repeat(64), &"g".repeat(64)] {
        assert_eq!(backup::photo_path(folder.path(), name), None, "{name}");
    }
}
