//! `cargo serve`: builds the page, serves it on this machine, and rebuilds when a source changes.

use crate::cargo::root;
use crate::server::Server;
use crate::site::{self, Recipe};
use crate::steps::Steps;
use crate::{tools, watch};
use anyhow::Result;
use std::path::Path;

/// Reloads the page when `built.txt` changes; put into served pages only, never into `dist/`.
const RELOAD: &str = r#"<script type="module">
      let built;
      setInterval(async () => {
        const now = await fetch('./built.txt').then((r) => (r.ok ? r.text() : built), () => built);
        if (built !== undefined && now !== built) location.reload();
        built = now;
      }, 1000);
    </script>
  "#;

/// Builds the site once and says where it lies.
///
/// # Errors
/// What [`site::build`] says.
pub fn build_only(release: bool) -> Result<()> {
    let steps = Steps::begin();
    tools::ensure_rust(&steps)?;
    let folder = site::build(&steps, Recipe { release, head: "" })?;
    steps.say(&format!("Built: {}", folder.display()));
    Ok(())
}

/// Builds, serves, and goes on rebuilding until it is stopped.
///
/// # Errors
/// When the first build fails or no port is free. Later builds that fail are told and waited out.
pub fn serve(port: u16, release: bool) -> Result<()> {
    let steps = Steps::begin();
    steps.say(&format!("Borewright in {}", root().display()));
    tools::ensure_rust(&steps)?;
    let mut seen = watch::look();
    let head = if release { "" } else { RELOAD };
    let recipe = Recipe { release, head };
    let folder = site::build(&steps, recipe)?;
    mark(&folder, recipe, 0)?;
    let server = Server::start(&folder, "/", port)?;
    steps.say("Ready. Open this address in a browser; stop with Ctrl+C:");
    println!("\n    {}\n", server.address);
    for count in 1_u32.. {
        seen = watch::wait_for_change(seen);
        steps.say("A source changed");
        match site::build(&steps, recipe).and_then(|_| mark(&folder, recipe, count)) {
            Ok(()) => steps.say(&format!("Built again: {}", server.address)),
            Err(error) => steps.say(&format!("Not built, the last page stays: {error:#}")),
        }
    }
    Ok(())
}

/// Leaves the number of the build where the page looks for it.
fn mark(folder: &Path, recipe: Recipe, count: u32) -> Result<()> {
    if !recipe.release {
        let started = std::process::id();
        std::fs::write(folder.join("built.txt"), format!("{started}-{count}\n"))?;
    }
    Ok(())
}
