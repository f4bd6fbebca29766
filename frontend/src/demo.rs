//! The invented house the page opens on when nothing else is there: an ordinary saved plan.

use borewright_core::file;
use borewright_core::plan::Plan;
use gloo::net::http::Request;

/// Where it lies beside the page.
const ADDRESS: &str = "./demo/demo.json";

/// The demo; `None` when it cannot be fetched or read, and the page then opens on an empty plan.
pub async fn plan() -> Option<Plan> {
    let answer = Request::get(ADDRESS).send().await.ok()?;
    let bytes = answer.binary().await.ok()?;
    file::read(&bytes).ok().map(|opened| opened.plan)
}
