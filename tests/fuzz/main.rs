//! Hostile input for as long as one likes: samples are mutated again and again, and whatever comes of
//! them is read, derived and told.
//!
//!     cargo run -q --profile fuzz -p borewright-tests --example fuzz -- MINUTES [SEED]
//!
//! Nothing may panic, overflow, take longer than 10 s, or hold more than 64 MB beyond what it was given;
//! with a third word only the targets with that in their names run. What does is
//! written to `target/fuzz/` and the run ends with 1. The corpus is what the tests keep anyway
//! (`tests/files`, `tests/plans`): nothing grows here. The same seed makes the same inputs.

#![expect(
    clippy::print_stdout,
    clippy::expect_used,
    reason = "this is a program for the terminal, and may stop at the first surprise"
)]

mod corpus;
mod mutate;
mod targets;

use peak_alloc::PeakAlloc;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::time::{Duration, Instant};

#[global_allocator]
static HELD: PeakAlloc = PeakAlloc;

/// The most that anything may hold beyond what it was given: 64 MB.
const MOST: usize = 64 << 20;

/// The longest that anything may take.
const LONGEST: Duration = Duration::from_secs(10);

/// What came of one target.
#[derive(Default)]
struct Tally {
    runs: u64,
    taken: u64,
    peak: usize,
    slowest: Duration,
}

fn main() {
    let mut words = std::env::args().skip(1);
    let minutes: f64 = words
        .next()
        .map_or(1.0, |word| word.parse().expect("minutes"));
    let seed: u64 = words.next().map_or(1, |word| word.parse().expect("a seed"));
    let only = words.next().unwrap_or_default();
    let corpus = corpus::read();
    let mut dice = mutate::Dice::new(seed);
    let mut tallies: Vec<Tally> = targets::ALL.iter().map(|_| Tally::default()).collect();
    let end = Instant::now() + Duration::from_secs_f64(minutes * 60.0);
    let mut is_sound = true;
    while Instant::now() < end && is_sound {
        let all = targets::ALL.iter().zip(&mut tallies);
        for (target, tally) in all.filter(|(target, _)| target.name.contains(&only)) {
            let input = (target.make)(&corpus, &mut dice);
            is_sound &= run(target, &input, tally);
        }
    }
    for (target, tally) in targets::ALL.iter().zip(&tallies) {
        println!(
            "{}: {} inputs, {} taken, {} KB at most, {:.0} ms at most",
            target.name,
            tally.runs,
            tally.taken,
            tally.peak >> 10,
            tally.slowest.as_secs_f64() * 1000.0,
        );
    }
    std::process::exit(i32::from(!is_sound));
}

/// Runs one input; false when it did what nothing may do.
fn run(target: &targets::Target, input: &[u8], tally: &mut Tally) -> bool {
    HELD.reset_peak_usage();
    let (before, started) = (HELD.current_usage(), Instant::now());
    let done = catch_unwind(AssertUnwindSafe(|| (target.take)(input)));
    let held = HELD.peak_usage().saturating_sub(before);
    tally.runs += 1;
    tally.peak = tally.peak.max(held);
    let took = started.elapsed();
    tally.slowest = tally.slowest.max(took);
    match done {
        Ok(_) if took > LONGEST => blame(target, input, &format!("took {} s", took.as_secs())),
        Ok(taken) if held <= MOST => {
            tally.taken += u64::from(taken);
            true
        }
        Ok(_) => blame(target, input, &format!("held {} KB", held >> 10)),
        Err(_) => blame(target, input, "panicked"),
    }
}

/// Keeps the input for whoever mends it.
fn blame(target: &targets::Target, input: &[u8], fault: &str) -> bool {
    let package = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    let folder = package.join("../target/fuzz");
    std::fs::create_dir_all(&folder).expect("a folder for what was found");
    let file = folder.join(format!("{}.input", target.name.replace(' ', "-")));
    std::fs::write(&file, input).expect("the input is kept");
    println!(
        "{} {fault}; the input is in {}",
        target.name,
        file.display()
    );
    false
}
