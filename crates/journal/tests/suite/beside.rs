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
use journal::photos::PhotoFile;
use journal::plan_files::PlanFile;
use journal::refused::{MostRefused, NotTaken};
use journal::{Journal, JournalError, Query, Row};
use model::record::happened::{Happened, Position, Subject};
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
async fn devices_are_listed_until_they_end() {
    for place in Place::all().await {
        let journal = place.open().await;
        let mut random = Pcg64Mcg::seed_from_u64(1);
        let (one, other) = (number(&mut random), number(&mut random));
        for (index, (account, kind)) in
            [(one, PassKind::Device), (other, PassKind::Device), (one, PassKind::Session)].into_iter().enumerate()
        {
            let ends_at = now() + i64::try_from(index + 1).unwrap().hours();
            let pass = Pass { kind, account: Some(account), name: format!("phone {index}"), ends_at };
            journal.give_pass(&digest_of_secret(&index.to_string()), &pass, now()).await.unwrap();
        }
        let all = journal.devices(None, now()).await.unwrap();
        assert_eq!(all.len(), 2, "sessions are no devices");
        assert_ne!(all[0].number(), all[1].number());
        let own = journal.devices(Some(one), now()).await.unwrap();
        assert_eq!((own.len(), own[0].name.as_str(), own[0].account), (1, "phone 0", one));
        assert_eq!(own[0].digest, digest_of_secret("0"));
        assert!(journal.devices(Some(one), now() + 1.hours()).await.unwrap().is_empty(), "ended");
    }
}

#[tokio::test]
async fn photos_and_what_was_refused_are_kept_once() {
    for place in Place::all().await {
        let journal = place.open().await;
        let file = |byte, place| PhotoFile {
            digest: [byte; 32],
            media_type: "image/jpeg".into(),
            bytes: 40_000_000,
            place,
            finished_at: now(),
        };
        let somewhere = Some(Position { lon: -28.400_012_3, lat: 47.3 });
        journal.keep_photo(&file(7, somewhere)).await.unwrap();
        journal.keep_photo(&file(3, None)).await.unwrap();
        journal.keep_photo(&file(7, None)).await.unwrap();
        let found = journal.photos(&[[7; 32], [9; 32], [3; 32], [7; 32]]).await.unwrap();
        assert_eq!(found, [file(3, None), file(7, somewhere)]);
        let many: Vec<_> = (0..=255).flat_map(|byte| [[byte; 32], [byte; 32]]).collect();
        assert_eq!(journal.photos(&many).await.unwrap(), found);
        assert!(journal.photos(&[]).await.unwrap().is_empty());

        let not_taken = |count: usize| NotTaken {
            actor: "mara".into(),
            device: "phone".into(),
            why: format!("no such kind {count}"),
            body: format!("{{\"count\":{count}}}"),
        };
        let all: Vec<NotTaken> = (0..250).map(not_taken).collect();
        let most = |count: u64, bytes: u64| MostRefused { count, bytes };
        let kept = journal.keep_refused(&all[..240], most(240, 100_000), now()).await.unwrap();
        assert_eq!(kept, [true; 240]);
        // What is kept already is kept, however little room there is; of the rest as many as there is room for.
        let kept = journal.keep_refused(&all[238..244], most(242, 100_000), now()).await.unwrap();
        assert_eq!(kept, [true, true, true, true, false, false]);
        let full = most(1_000, 242 * 11 + 232 + 142);
        assert_eq!(journal.keep_refused(&all[..1], full, now()).await.unwrap(), [true]);
        assert_eq!(journal.keep_refused(&all[249..], full, now()).await.unwrap(), [false]);
        let kept = journal.keep_refused(&all[242..], most(250, 100_000), now()).await.unwrap();
        assert_eq!(kept, [true; 8]);
        assert!(journal.keep_refused(&[], full, now()).await.unwrap().is_empty());
        assert_eq!(journal.refused_of("mara").await.unwrap(), (250, 250 * 11 + 240 + 150));
        assert_eq!(journal.refused_of("ole").await.unwrap(), (0, 0));
        let (mut after, mut pages) = (None, Vec::new());
        loop {
            let page = journal.refused_after(after, 100).await.unwrap();
            let Some(last) = page.last() else { break };
            let digest: Vec<u8> =
                (0..32).map(|at| u8::from_str_radix(&last.number[2 * at..2 * at + 2], 16).unwrap()).collect();
            after = Some((last.at, digest.try_into().unwrap()));
            pages.extend(page);
        }
        assert_eq!(pages.len(), 250);
        let mut bodies: Vec<&str> = pages.iter().map(|one| one.body.as_str()).collect();
        bodies.sort_unstable();
        bodies.dedup();
        assert_eq!(bodies.len(), 250, "each once, on one page");
        assert!(pages.iter().all(|one| one.at == now() && one.why.starts_with("no such kind")));
        assert_eq!(journal.forget_refused(now()).await.unwrap(), 0);
        assert_eq!(journal.forget_refused(now() + 1.hours()).await.unwrap(), 250);
        assert_eq!(journal.refused_of("mara").await.unwrap(), (0, 0));
    }
}

/// A record of every schema that there was goes on.
#[tokio::test]
async fn older_schemas_are_brought_up_to_today() {
    for version in journal::store::schema_versions() {
        for place in Place::all().await {
            let mut random = Pcg64Mcg::seed_from_u64(5);
            let old = Journal::open_up_to(&place.location, Some(version)).await.unwrap();
            // an old record has no table for what is gone, so nothing may be unknown again before it is brought up: nothing is taken
            // back, nor is there a photo of what was not told of
            let mut events = history(&mut random, 40);
            events.retain(|event| match event.happened {
                Happened::Corrected { .. } => false,
                Happened::PhotoTaken { of, .. } => !matches!(of, Subject::Resurfacing(_)),
                _ => true,
            });
            old.append(events, now()).await.unwrap();
            old.make_account(&mara(&mut random), now()).await.unwrap();
            let before = old.page(&Query::all("hole", 100)).await.unwrap();
            let everywhere = Query { within: Some([-180.0, -90.0, 180.0, 90.0]), ..Query::all("hole", 100) };
            let placed: Vec<Row> = before.rows.iter().filter(|row| row.place.is_some()).cloned().collect();
            assert!(!placed.is_empty());
            old.close().await;
            let journal = place.open().await;
            assert_eq!(journal.page(&Query::all("hole", 100)).await.unwrap(), before, "schema {version}");
            assert_eq!(journal.page(&everywhere).await.unwrap().rows, placed, "schema {version}");
            assert!(journal.account_named("mara").await.unwrap().is_some());
            journal.append(history(&mut random, 10), now()).await.unwrap();
            assert!(journal.follow_events().await.unwrap().is_ok());
            assert!(journal.photos(&[[7; 32]]).await.unwrap().is_empty());
            assert!(journal.refused_after(None, 10).await.unwrap().is_empty());
        }
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
        assert_eq!(journal.last_jobs("plan").await.unwrap().len(), 2);
        assert!(journal.last_jobs("import").await.unwrap().is_empty());
    }
}

#[tokio::test]
async fn what_a_job_works_on_is_there_until_it_is_over() {
    for place in Place::all().await {
        let journal = place.open().await;
        let mut random = Pcg64Mcg::seed_from_u64(1);
        let (waits, nobodys) = (number(&mut random), number(&mut random));
        for job in [waits, nobodys] {
            for (part, content) in [(0, &[0, 1, 255][..]), (1, &vec![7; 100_000])] {
                journal.keep_upload(job, part, content, now()).await.unwrap();
            }
        }
        assert!(journal.keep_upload(waits, 0, b"again", now()).await.is_err());
        journal.ask_for(waits, "import", "{}", "mara", now()).await.unwrap();
        assert_eq!(journal.upload(waits, 0).await.unwrap().unwrap(), [0, 1, 255]);
        assert_eq!(journal.upload(waits, 1).await.unwrap().unwrap().len(), 100_000);
        assert_eq!(journal.upload(waits, 2).await.unwrap(), None);
        assert_eq!(journal.forget_uploads(now()).await.unwrap(), 0, "sent just now");
        assert_eq!(journal.forget_uploads(now() + 1.hours()).await.unwrap(), 2);
        assert_eq!(journal.upload(nobodys, 0).await.unwrap(), None);
        assert!(journal.upload(waits, 0).await.unwrap().is_some(), "its job waits");
        journal.forget_upload(waits).await.unwrap();
        assert_eq!(journal.upload(waits, 1).await.unwrap(), None);
    }
}

#[tokio::test]
async fn files_of_a_plan_stay_where_it_was_taken() {
    for place in Place::all().await {
        let journal = place.open().await;
        let mut random = Pcg64Mcg::seed_from_u64(4);
        let (first, second, round) = (number(&mut random), number(&mut random), number(&mut random));
        let file = |name: &str, content: &[u8]| PlanFile {
            round,
            name: name.to_owned(),
            media_type: "text/plain".to_owned(),
            content: content.to_vec(),
        };
        for job in [first, second] {
            journal.keep_plan_files(job, vec![file("b", &[1, 2]), file("a", &[])], now()).await.unwrap();
        }
        assert!(journal.keep_plan_files(first, vec![file("c", &[]), file("a", &[])], now()).await.is_err());
        let listed = journal.plan_files(first, round).await.unwrap();
        let names: Vec<(&str, u64)> = listed.iter().map(|file| (file.name.as_str(), file.size)).collect();
        assert_eq!(names, [("a", 0), ("b", 2)], "all of a round's files or none");
        assert_eq!(listed[1].digest, sha256(&[1, 2]));
        // begun anew
        journal.forget_files_of_plan(first).await.unwrap();
        journal.keep_plan_files(first, vec![file("b", &[3])], now()).await.unwrap();
        assert_eq!(journal.plan_file(first, round, "b").await.unwrap().unwrap().1, [3]);
        assert_eq!(journal.plan_file(first, round, "a").await.unwrap(), None);
        assert_eq!(journal.plan_of_round(round).await.unwrap(), None);
        for job in [second, first] {
            journal.take_plan(job, &[round], now()).await.unwrap();
        }
        assert_eq!(journal.plan_of_round(round).await.unwrap(), Some(first), "the last counts");
        assert_eq!(journal.forget_plan_files(now()).await.unwrap(), 0, "made just now");
        assert_eq!(journal.forget_plan_files(now() + 1.hours()).await.unwrap(), 2);
        assert_eq!(journal.plan_files(first, round).await.unwrap().len(), 1);
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
        let photo = PhotoFile {
            digest: sha256(content),
            media_type: "image/png".into(),
            bytes: content.len() as u64,
            place: Some(Position { lon: 7.5, lat: 47.0 }),
            finished_at: now(),
        };
        journal.keep_photo(&photo).await.unwrap();
        let refused = NotTaken { actor: "mara".into(), device: "phone".into(), why: "no".into(), body: "3".into() };
        journal.keep_refused(&[refused], MostRefused { count: 1, bytes: 1 }, now()).await.unwrap();
        let (plan, round) = (number(&mut random), number(&mut random));
        let day_file = PlanFile { round, name: "a".into(), media_type: "image/png".into(), content: vec![0, 255, 7] };
        for job in [plan, number(&mut random)] {
            journal.keep_plan_files(job, vec![day_file.clone()], now()).await.unwrap();
        }
        journal.take_plan(plan, &[round], now()).await.unwrap();
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
            assert_eq!(other.photos(&[sha256(content)]).await.unwrap(), std::slice::from_ref(&photo));
            assert_eq!(other.plan_of_round(round).await.unwrap(), Some(plan));
            let (media_type, content) = other.plan_file(plan, round, "a").await.unwrap().unwrap();
            assert_eq!((&media_type, &content), (&day_file.media_type, &day_file.content));
            let one = other.forget_files_of_plan(plan).await;
            assert!(one.is_ok() && other.plan_files(plan, round).await.unwrap().is_empty());
            assert_eq!(
                other.forget_plan_files(now() + 1.hours()).await.unwrap(),
                0,
                "of a plan that nobody took none is in it"
            );
            assert_eq!(other.refused_after(None, 9).await.unwrap(), journal.refused_after(None, 9).await.unwrap());
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
