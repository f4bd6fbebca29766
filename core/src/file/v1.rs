//! Saved form, version 1: the document and its types. Published; what is here stays as it is.
//!
//! Lengths are millimetres, points `[x, y]`, things refer to each other by their numbers. Fields
//! that are not there mean no, nothing or the usual, which keeps files short; a field with another
//! meaning would be version 2.

mod drops;
mod levels;
mod printed;
mod record;
mod replies;
mod settings;
mod sheets;
mod site;
mod walls;

use serde::Serialize;

use super::fields::{Fields, List};
use super::losses::Losses;
use crate::plan::Plan;
use crate::plan::edit::caps;

/// What the field `format` says.
pub(super) const FORMAT: &str = "borewright plan";
/// What the field `version` says.
pub(super) const VERSION: u64 = 1;

/// More entries than any list of a plan has, where the plan itself sets no limit.
const MANY: usize = 10_000;

/// Declares the saved words of a plain enum and both ways between it and the live one.
macro_rules! words {
    ($saved:ident is $live:ty: $($variant:ident = $word:literal),* $(,)?) => {
        #[derive(Clone, Copy, serde::Serialize, serde::Deserialize)]
        pub(super) enum $saved { $(#[serde(rename = $word)] $variant),* }

        impl From<$live> for $saved {
            fn from(live: $live) -> Self {
                match live { $(<$live>::$variant => Self::$variant),* }
            }
        }

        impl From<$saved> for $live {
            fn from(saved: $saved) -> Self {
                match saved { $($saved::$variant => Self::$variant),* }
            }
        }
    };
}
use words;

/// A point, `[x, y]`.
type Xy = [i32; 2];

fn xy(point: crate::shape::Point) -> Xy {
    [point.x, point.y]
}

fn point([x, y]: Xy) -> crate::shape::Point {
    crate::shape::Point::new(x, y)
}

/// A direction, `[right, down]`; its length means nothing.
fn along(direction: crate::shape::Direction) -> Xy {
    [direction.dx, direction.dy]
}

fn direction([dx, dy]: Xy) -> crate::shape::Direction {
    crate::shape::Direction { dx, dy }
}

fn is_false(flag: &bool) -> bool {
    !flag
}

fn is_zero(count: &u16) -> bool {
    *count == 0
}

words!(Units is crate::units::Units: Imperial = "imperial", Metric = "metric");

/// The whole document, in the order it is written.
#[derive(Serialize)]
struct Document<'a> {
    format: &'static str,
    version: u64,
    title: &'a str,
    note: &'a str,
    units: Units,
    revision: u32,
    date: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    dates: Option<settings::Dates>,
    rules: settings::Rules,
    catalogue: settings::Catalogue,
    closet: Option<drops::Closet>,
    levels: Vec<levels::Level>,
    drops: Vec<drops::Drop>,
    pins: Vec<drops::Pin>,
    labels_frozen: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    printed: Option<printed::Last>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    printed_rows: Vec<printed::Row>,
    dismissed: Vec<settings::Dismissal>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    replies: Vec<replies::Reply>,
    #[serde(skip_serializing_if = "Option::is_none")]
    record: Option<record::Record>,
    next: settings::Numbers,
    scans: Vec<sheets::Scan>,
}

/// The plan as compact JSON.
pub(super) fn write(plan: &Plan) -> String {
    let (printed, printed_rows) = printed::of(&plan.printed);
    let document = Document {
        format: FORMAT,
        version: VERSION,
        title: &plan.title,
        note: &plan.note,
        units: plan.units.into(),
        revision: plan.revision,
        date: &plan.date,
        dates: (!plan.dates.is_empty()).then(|| (&plan.dates).into()),
        rules: (&plan.rules).into(),
        catalogue: (&plan.catalogue).into(),
        closet: plan.closet.as_ref().map(Into::into),
        levels: plan.levels.iter().map(Into::into).collect(),
        drops: plan.drops.iter().map(Into::into).collect(),
        pins: plan.pins.iter().map(Into::into).collect(),
        labels_frozen: plan.labels_frozen,
        printed,
        printed_rows,
        dismissed: plan.dismissed.iter().map(Into::into).collect(),
        replies: plan.replies.iter().map(Into::into).collect(),
        record: record::Record::of(&plan.record),
        next: plan.next.into(),
        scans: plan.levels.iter().filter_map(sheets::Scan::of).collect(),
    };
    // Strings, numbers and lists of them have no way to fail.
    serde_json::to_string(&document).unwrap_or_default()
}

/// The plan in a document's fields, as far as it can be read; it may still contradict itself.
pub(super) fn read(fields: &Fields, losses: &mut Losses) -> Plan {
    let mut plan = Plan {
        levels: levels::read(fields, losses),
        ..Plan::new()
    };
    head(&mut plan, fields, losses);
    settings::read(&mut plan, fields, losses);
    let list = |key, name| List {
        key,
        name,
        of: "",
        most: MANY,
    };
    let drops = List {
        most: caps::DROPS.most,
        ..list("drops", "Drop")
    };
    plan.drops = from(fields.list::<drops::Drop>(&drops, losses));
    plan.pins = from(fields.list::<drops::Pin>(&list("pins", "Pin"), losses));
    plan.closet = fields
        .one::<Option<drops::Closet>>("closet", "The closet", losses)
        .flatten()
        .map(Into::into);
    printed::read(&mut plan, fields, losses);
    replies::read(&mut plan, fields, losses);
    record::read(&mut plan, fields, losses);
    sheets::put(&mut plan, fields, losses);
    plan
}

fn head(plan: &mut Plan, fields: &Fields, losses: &mut Losses) {
    let text = |key, what, losses: &mut Losses| fields.one::<String>(key, what, losses);
    if let Some(title) = text("title", "The job's name", losses) {
        plan.title = title;
    }
    plan.note = text("note", "The note", losses).unwrap_or_default();
    plan.date = text("date", "The date", losses).unwrap_or_default();
    let dates = fields.one::<settings::Dates>("dates", "The dates of the job", losses);
    plan.dates = dates.map(Into::into).unwrap_or_default();
    if let Some(units) = fields.one::<Units>("units", "The choice of units", losses) {
        plan.units = units.into();
    }
    if let Some(revision) = fields.one("revision", "The revision", losses) {
        plan.revision = revision;
    }
    let frozen = fields.one("labels_frozen", "Whether labels are printed", losses);
    plan.labels_frozen = frozen.unwrap_or_default();
}

/// Turns a list of saved things into live ones, or the other way.
fn from<A: Into<B>, B>(list: Vec<A>) -> Vec<B> {
    list.into_iter().map(Into::into).collect()
}
