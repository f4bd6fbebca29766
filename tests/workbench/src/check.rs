//! One check of `cargo verify`: a command whose words go to a file, with its time and its counts.

use crate::steps::Steps;
use anyhow::{Context, Result};
use std::fs::File;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, ExitStatus, Stdio};
use std::time::{Duration, Instant};

/// A check that takes longer than this has hung.
const LIMIT: Duration = Duration::from_secs(30 * 60);

/// Between two signs of life.
const SIGN: Duration = Duration::from_secs(15);

/// Lines shown of a check that failed.
const TAIL: usize = 60;

/// What came of one check.
#[derive(Debug, PartialEq)]
pub struct Outcome {
    /// The name it goes by.
    pub name: String,
    /// Tests that passed; 1 for a check that has none inside.
    pub passed: u32,
    /// Tests that failed; at least 1 when the check failed.
    pub failed: u32,
    /// How long it took.
    pub took: Duration,
}

/// A check to be run.
pub struct Check<'a> {
    /// The name it goes by; `cargo verify NAME` runs it alone.
    pub name: &'a str,
    /// What it looks at, in a few words.
    pub about: &'a str,
    /// What a person types to see it again.
    pub again: String,
    /// Whether its words hold counts of tests, of which there must be one at least.
    pub has_tests: bool,
}

impl Check<'_> {
    /// Runs the command and tells how it went; a failure prints the end of its words.
    ///
    /// # Errors
    /// When the command cannot be started or its words cannot be kept.
    pub fn run(&self, steps: &Steps, mut command: Command, folder: &Path) -> Result<Outcome> {
        steps.say(&format!("{}: {}", self.name, self.about));
        let log = folder.join(format!("{}.log", self.name.replace(' ', "-")));
        let words = File::create(&log).with_context(|| format!("no file {}", log.display()))?;
        command
            .stdin(Stdio::null())
            .stdout(words.try_clone()?)
            .stderr(words);
        command
            .env("CARGO_TERM_COLOR", "never")
            .env("CARGO_TERM_PROGRESS_WHEN", "never");
        let started = Instant::now();
        let child = command
            .spawn()
            .with_context(|| format!("cannot start {command:?}"))?;
        let status = wait(child, &log, started)?;
        let words = String::from_utf8_lossy(&std::fs::read(&log)?).into_owned();
        let outcome = self.judged(
            status.is_some_and(|s| s.success()),
            &words,
            started.elapsed(),
        );
        if outcome.failed > 0 {
            let is_over = if status.is_none() {
                "It was stopped: it had hung.\n"
            } else {
                ""
            };
            self.show_failure(&words, &log, is_over);
        }
        Ok(outcome)
    }

    /// Counts what the words say; a check that should hold tests and ran none has failed.
    fn judged(&self, is_good: bool, words: &str, took: Duration) -> Outcome {
        let (passed, failed) = if self.has_tests {
            counts(words)
        } else {
            (u32::from(is_good), 0)
        };
        let is_good = is_good && passed > 0;
        let failed = if is_good { failed } else { failed.max(1) };
        Outcome {
            name: self.name.into(),
            passed,
            failed,
            took,
        }
    }

    fn show_failure(&self, words: &str, log: &Path, more: &str) {
        let lines: Vec<&str> = words.lines().collect();
        let tail = &lines[lines.len().saturating_sub(TAIL)..];
        println!("----- {} failed; the end of {}:", self.name, log.display());
        println!("{}", tail.join("\n"));
        println!("----- {more}To see it again: {}\n", self.again);
    }
}

/// Waits for the end, with a sign of life now and then; `None` when it had to be stopped.
fn wait(mut child: Child, log: &Path, started: Instant) -> Result<Option<ExitStatus>> {
    let mut next_sign = SIGN;
    loop {
        if let Some(status) = child.try_wait()? {
            return Ok(Some(status));
        }
        if started.elapsed() > LIMIT {
            child.kill()?;
            child.wait()?;
            return Ok(None);
        }
        if started.elapsed() > next_sign {
            println!("{:>13} s  {}", next_sign.as_secs(), last_line(log));
            next_sign += SIGN;
        }
        std::thread::sleep(Duration::from_millis(50));
    }
}

fn last_line(log: &Path) -> String {
    let words = std::fs::read(log).unwrap_or_default();
    let words = String::from_utf8_lossy(&words);
    let line = words
        .lines()
        .rev()
        .map(str::trim)
        .find(|line| !line.is_empty())
        .unwrap_or("…");
    line.chars().take(80).collect()
}

/// Sums the closing lines of test runs: "test result: ok. 4 passed; 0 failed; …".
fn counts(words: &str) -> (u32, u32) {
    let closing = words
        .lines()
        .filter_map(|line| line.trim().strip_prefix("test result: "));
    closing.fold((0, 0), |(passed, failed), line| {
        (
            passed + number_before(line, " passed"),
            failed + number_before(line, " failed"),
        )
    })
}

fn number_before(line: &str, word: &str) -> u32 {
    let before = line.split(word).next().unwrap_or_default();
    before
        .rsplit(' ')
        .next()
        .and_then(|number| number.parse().ok())
        .unwrap_or(0)
}

/// Makes the folder for the words of checks.
///
/// # Errors
/// When it cannot be made.
pub fn log_folder() -> Result<PathBuf> {
    let folder = crate::cargo::target_folder().join("verify");
    std::fs::create_dir_all(&folder).with_context(|| format!("no folder {}", folder.display()))?;
    Ok(folder)
}

/// The table of all outcomes and, alone on the last line, their sum.
pub fn table(outcomes: &[Outcome]) -> String {
    let mut lines = vec![format!(
        "{:<24}{:>8}{:>8}{:>10}",
        "check", "passed", "failed", "seconds"
    )];
    lines.extend(outcomes.iter().map(|one| {
        let seconds = one.took.as_secs_f64();
        format!(
            "{:<24}{:>8}{:>8}{seconds:>10.1}",
            one.name, one.passed, one.failed
        )
    }));
    let passed: u32 = outcomes.iter().map(|one| one.passed).sum();
    let failed: u32 = outcomes.iter().map(|one| one.failed).sum();
    lines.push(String::new());
    lines.push(format!("{passed} passed, {failed} failed"));
    lines.join("\n")
}

#[cfg(test)]
mod tests {
    use super::*;
    use expect_test::expect;

    const WORDS: &str = "\
running 3 tests
test result: ok. 15 passed; 0 failed; 2 ignored; 0 measured; 0 filtered out; finished in 0.01s
test result: FAILED. 1 passed; 2 failed; 0 ignored; 0 measured; 0 filtered out
";

    fn check(has_tests: bool) -> Check<'static> {
        Check {
            name: "tests",
            about: "",
            again: String::new(),
            has_tests,
        }
    }

    #[test]
    fn closing_lines_are_summed() {
        assert_eq!(counts(WORDS), (16, 2));
        assert_eq!(counts("no tests to run!"), (0, 0));
    }

    #[test]
    fn a_run_without_a_test_has_failed() {
        let judged = check(true).judged(true, "no tests to run!", Duration::ZERO);
        assert_eq!((judged.passed, judged.failed), (0, 1));
    }

    #[test]
    fn a_bad_end_counts_even_when_every_test_passed() {
        let words = "test result: ok. 3 passed; 0 failed;";
        assert_eq!(check(true).judged(false, words, Duration::ZERO).failed, 1);
        assert_eq!(check(false).judged(false, "", Duration::ZERO).failed, 1);
        assert_eq!(check(false).judged(true, "", Duration::ZERO).passed, 1);
    }

    #[test]
    fn the_last_line_stands_alone() {
        let outcome = |name: &str, passed, failed, seconds| Outcome {
            name: name.into(),
            passed,
            failed,
            took: Duration::from_secs(seconds),
        };
        let table = table(&[outcome("format", 1, 0, 1), outcome("tests", 16, 2, 75)]);
        expect![[r#"
            check                     passed  failed   seconds
            format                         1       0       1.0
            tests                         16       2      75.0

            17 passed, 2 failed"#]]
        .assert_eq(&table);
    }
}
