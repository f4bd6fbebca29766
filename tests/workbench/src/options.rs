//! What the command line asks for.

use anyhow::{Context, Result, bail};
use std::path::PathBuf;

/// One of the commands, with its options.
#[derive(Debug, PartialEq)]
pub enum Command {
    /// Print what there is.
    Help,
    /// Nothing is to be done.
    Nothing,
    /// Build the page and stop.
    Build {
        /// Small and hashed, into `dist/`.
        release: bool,
    },
    /// Finish a release that trunk built; called by the hook in `Trunk.toml`.
    Finish {
        /// The folder of the release.
        folder: PathBuf,
    },
    /// Build, serve, watch, rebuild.
    Serve {
        /// First port to try.
        port: u16,
        /// Serve what `dist/` would hold.
        release: bool,
    },
    /// Measure what is promised.
    Figures,
    /// Run the checks.
    Verify {
        /// Only those whose name has this in it; all when empty.
        word: String,
    },
}

/// Printed by `help` and after a word that is not understood.
pub const HELP: &str = "\
cargo serve [--port N] [--release]   build the page, serve it on this machine, rebuild on change
cargo verify [WORD]                  run every check, or only the steps whose name has WORD in it
cargo figures                        measure what is promised, one line a figure";

/// Port tried first when none is asked for.
const PORT: u16 = 8080;

/// Reads the words after the program's name.
///
/// # Errors
/// A word or number that is not understood, with what would be.
pub fn read(words: impl Iterator<Item = String>) -> Result<Command> {
    let mut words = words.peekable();
    let command = words.next().unwrap_or_else(|| "help".into());
    let (mut port, mut release, mut name) = (PORT, false, String::new());
    while let Some(word) = words.next() {
        match word.as_str() {
            "--release" => release = true,
            "--port" => port = read_port(words.next())?,
            plain if command == "verify" && !plain.starts_with('-') => name = word,
            other => bail!("`{other}` is not understood. What is:\n{HELP}"),
        }
    }
    match command.as_str() {
        "help" | "--help" | "-h" => Ok(Command::Help),
        "build" => Ok(Command::Build { release }),
        "serve" => Ok(Command::Serve { port, release }),
        "finish" => finish(),
        "figures" => Ok(Command::Figures),
        "verify" => Ok(Command::Verify { word: name }),
        other => bail!("`{other}` is not a command. What is:\n{HELP}"),
    }
}

/// What trunk tells its hooks: the folder, and whether it is a release, which alone is finished.
fn finish() -> Result<Command> {
    let told =
        |name| std::env::var_os(name).with_context(|| format!("trunk sets {name}; it is not set"));
    match told("TRUNK_PROFILE")?.to_str() {
        Some("release") => Ok(Command::Finish {
            folder: told("TRUNK_STAGING_DIR")?.into(),
        }),
        _ => Ok(Command::Nothing),
    }
}

fn read_port(word: Option<String>) -> Result<u16> {
    let word = word.context("--port needs a number after it, for example --port 8080")?;
    word.parse()
        .with_context(|| format!("--port {word}: a port is a number from 0 to 65535"))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn words(line: &str) -> Result<Command> {
        read(line.split_whitespace().map(String::from))
    }

    #[test]
    fn serve_takes_a_port_and_release() {
        let asked = words("serve --port 9000 --release").unwrap();
        assert_eq!(
            asked,
            Command::Serve {
                port: 9000,
                release: true
            }
        );
        assert_eq!(
            words("serve").unwrap(),
            Command::Serve {
                port: PORT,
                release: false
            }
        );
    }

    #[test]
    fn verify_takes_part_of_a_name() {
        let asked = words("verify stories").unwrap();
        assert_eq!(
            asked,
            Command::Verify {
                word: "stories".into()
            }
        );
        assert_eq!(
            words("verify").unwrap(),
            Command::Verify {
                word: String::new()
            }
        );
        assert!(words("verify --stories").is_err());
    }

    #[test]
    fn a_wrong_word_is_named() {
        assert!(
            words("serve --prot 1")
                .unwrap_err()
                .to_string()
                .contains("--prot")
        );
        assert!(
            words("serve --port x")
                .unwrap_err()
                .to_string()
                .contains("--port x")
        );
        assert!(words("swerve").unwrap_err().to_string().contains("swerve"));
    }
}
