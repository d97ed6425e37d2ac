use super::*;
use std::sync::atomic::AtomicU32;
use std::time::Instant;

fn task(
    spawner: &Spawner,
    pause_ms: u64,
    work: impl Fn(u32, &Line<'_, u32>) + Send + Sync + 'static,
) -> Task<u32, u32> {
    let pause = Duration::from_millis(pause_ms);
    let manner = Manner::after(pause, "The thing could not be done");
    Task::new(spawner, &(Arc::new(|| {}) as Wake), manner, work)
}

fn wait(task: &mut Task<u32, u32>) -> Vec<u32> {
    let begun = Instant::now();
    let mut all = Vec::new();
    while matches!(task.status(), Status::Working(_)) {
        assert!(begun.elapsed() < Duration::from_secs(20), "it never ends");
        all.extend(task.collect().0);
        std::thread::sleep(Duration::from_millis(1));
    }
    all
}

#[test]
fn parts_come_back_and_then_it_rests() {
    let mut task = task(&inline(), 0, |input, line| {
        line.send(input * 2);
        line.send(input * 3);
    });
    assert_eq!(task.status(), Status::Idle);
    task.submit(7).unwrap();
    assert_eq!(task.collect(), (vec![14, 21], None));
    assert_eq!(task.status(), Status::Idle);
}

#[test]
fn what_is_submitted_in_quick_succession_is_worked_out_once() {
    let mut task = task(&on_a_thread(), 60, |input, line| line.send(input));
    for input in 1..=5 {
        task.submit(input).unwrap();
    }
    assert_eq!(wait(&mut task), [5]);
}

#[test]
fn what_is_added_is_all_done_in_line() {
    let (held, spawner) = held();
    let mut task = task(&spawner, 0, |input, line| line.send(input));
    for input in 1..=3 {
        task.add(input).unwrap();
    }
    task.add_first(4).unwrap();
    assert_eq!(held.run_all(), 1);
    assert_eq!(task.collect().0, [4, 1, 2, 3]);
    assert_eq!(task.status(), Status::Idle);
}

#[test]
fn stopping_ends_the_work_and_nothing_of_it_comes_back() {
    let ended = Arc::new(AtomicU32::new(0));
    let seen = Arc::clone(&ended);
    let mut task = task(&on_a_thread(), 0, move |_, line| {
        while line.progress(0.5).is_continue() {
            std::thread::yield_now();
        }
        line.send(1);
        seen.store(1, Ordering::SeqCst);
    });
    task.submit(1).unwrap();
    let begun = Instant::now();
    while task.status() != Status::Working(0.5) {
        assert!(begun.elapsed() < Duration::from_secs(20));
    }
    task.stop();
    assert_eq!(task.status(), Status::Stopped);
    while ended.load(Ordering::SeqCst) == 0 {
        assert!(begun.elapsed() < Duration::from_secs(20));
    }
    assert_eq!(task.collect(), (Vec::new(), None));
    assert_eq!(task.status(), Status::Stopped);
}

#[test]
fn a_panic_becomes_a_sentence() {
    let mut task = task(&inline(), 0, |_, _| std::panic::resume_unwind(Box::new(())));
    task.submit(1).unwrap();
    let (_, sentence) = task.collect();
    let sentence = sentence.unwrap();
    assert!(
        sentence.starts_with("The thing could not be done:")
            && sentence.contains("The survey is safe"),
        "{sentence}"
    );
    assert_eq!(task.status(), Status::Idle);
}

#[test]
fn a_worker_that_cannot_start_is_told() {
    let refusing: Spawner = Arc::new(|_| Err(std::io::Error::other("no threads left")));
    let mut task = task(&refusing, 0, |_, _| {});
    assert!(task.submit(1).unwrap_err().contains("no threads left"));
    assert_eq!(task.status(), Status::Idle);
}
