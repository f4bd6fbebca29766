//! What whoever signed a reply keeps of it.

use super::{Matter, typed};
use crate::plan::{Answer, Plan, Reply, Said};

/// What a name under a reply is worth.
pub const NAME_CAUTION: &str = "typed name, not verified";

/// All that was signed, in plain text: who, when, which version of which plan, and each item as it was
/// shown with what was said of it.
pub fn receipt(plan: &Plan, matters: &[Matter], reply: &Reply) -> String {
    let code = reply.version.code().unwrap_or_default();
    let mut lines = vec![
        format!("Receipt of a reply to {}", reply.job),
        format!("Revision {}, version {code}", reply.revision),
        format!("Signed by {} ({NAME_CAUTION})", typed(&reply.name)),
    ];
    let dates = [("Signed on", &reply.date), ("Plan dated", &plan.date)];
    let told = dates.iter().filter(|(_, date)| !date.is_empty());
    lines.extend(told.map(|(what, date)| format!("{what} {date}")));
    for answer in &reply.answers {
        let found = matters.iter().find(|matter| matter.item == answer.item);
        lines.extend(found.map(|matter| line(matter, answer)));
    }
    lines.push(String::new());
    // A line break in somebody's words is no end of a line of the receipt.
    let lines = lines.iter().map(|line| line.replace('\n', " / "));
    lines.collect::<Vec<_>>().join("\n")
}

fn line(matter: &Matter, answer: &Answer) -> String {
    let said = match &answer.said {
        Said::Agreed => String::from("Agreed"),
        Said::Asked(question) => format!("Asked: {question}"),
    };
    let name = [matter.name.as_str(), matter.what.as_str()];
    let name: Vec<&str> = name.into_iter().filter(|part| !part.is_empty()).collect();
    format!("{said}. {}: {}", name.join(", "), matter.says.join("; "))
}
