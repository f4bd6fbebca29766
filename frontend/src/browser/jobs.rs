//! Jobs on this device: what is stored of each, and under which names.

use std::collections::BTreeMap;
use std::rc::Rc;

use borewright_core::desk::Step;
use borewright_core::file;
use borewright_core::file::job::{Archive, Drawings, Entry, Job, Point, Written, in_order};
use borewright_core::plan::Plan;

use super::notes::Notes;
use super::storage::{self, Order, Table};
use super::{clock, scope};

/// Where the name of the job that lay on the table last is kept: for this window, and for any.
const LAST: &str = "borewright job";

/// The slots of before there were jobs, the older one first.
const SLOTS: [&str; 2] = ["before", "now"];

/// A name for a new job, which no other job of this device has.
pub fn new_id() -> String {
    let chance = || (js_sys::Math::random() * f64::from(u32::MAX)) as u32;
    format!("{:012x}{:08x}{:08x}", clock::moment(), chance(), chance())
}

/// Notes which job lies on the table. Where a device keeps nothing, the next time begins anew.
pub fn note_last(id: &str) {
    let name = scope::own(LAST);
    Notes::Window.write(&name, id);
    Notes::Device.write(&name, id);
}

/// The jobs that lay on the table last, in this window and in any.
pub fn last() -> Vec<String> {
    let name = scope::own(LAST);
    let (here, any) = (Notes::Window.read(&name), Notes::Device.read(&name));
    // Before paths had names of their own.
    let before = Notes::Device.read(LAST);
    here.into_iter().chain(any).chain(before).collect()
}

/// Where the name of a job that is being opened is noted.
const OPENING: &str = "borewright opening";

/// Notes that a job is being opened, or that it lies on the table in one piece.
pub fn note_opening(id: Option<&str>) {
    // Where a device keeps nothing there is no job to open either.
    match id {
        Some(id) => Notes::Device.write(&scope::own(OPENING), id),
        None => Notes::Device.delete(&scope::own(OPENING)),
    }
}

/// A job in whose opening the page came to an end.
pub fn left_opening() -> Option<String> {
    Notes::Device.read(&scope::own(OPENING))
}

/// Every job on the list. Those whose thirty days are over are left out, and deleted for good.
///
/// # Errors
/// One sentence when the storage cannot be read.
pub async fn entries() -> Result<Vec<Entry>, String> {
    let stored = storage::all(Table::Jobs, None).await?;
    let read = |(id, bytes): (String, Vec<u8>)| Entry::read(&id, &bytes);
    let now = clock::moment();
    let (over, left): (Vec<Entry>, Vec<Entry>) =
        stored.into_iter().map(read).partition(|e| e.is_over(now));
    let gone: Vec<Order> = over.iter().flat_map(|entry| gone(&entry.id)).collect();
    if !gone.is_empty() {
        storage::write(&gone).await?;
    }
    Ok(in_order(left))
}

/// A job with its history.
///
/// # Errors
/// One sentence when it cannot be read.
pub async fn open(id: &str) -> Result<Job, String> {
    let (from, until) = names(id);
    let between = Some((from.as_str(), until.as_str()));
    let records = storage::all(Table::Journal, between).await?;
    let records: Vec<Vec<u8>> = records.into_iter().map(|(_, bytes)| bytes).collect();
    Job::read(&records, drawings(id).await?).map_err(|_| {
        String::from(
            "This job is too damaged to be read. What is left of it stays on this device and goes into the file of all jobs.",
        )
    })
}

/// The drawings of a job.
///
/// # Errors
/// One sentence when the storage cannot be read.
pub async fn drawings(id: &str) -> Result<Drawings, String> {
    let (from, until) = names(id);
    let drawings = storage::all(Table::Drawings, Some((&from, &until))).await?;
    let drawings = drawings
        .into_iter()
        .filter_map(|(name, bytes)| Some((name.strip_prefix(&from)?.to_string(), bytes)));
    Ok(Drawings::read(drawings))
}

/// The named points of a job, the newest first. One that cannot be read is left out.
///
/// # Errors
/// One sentence when the storage cannot be read.
pub async fn points(id: &str) -> Result<Vec<Point>, String> {
    let (from, until) = names(id);
    let stored = storage::all(Table::Points, Some((&from, &until))).await?;
    let points = stored.iter().rev();
    Ok(points.filter_map(|(_, bytes)| Point::read(bytes)).collect())
}

/// Where the record is that what is to be written of a job rests on.
pub fn rests_on(id: &str, written: &Written) -> Option<(Table, String)> {
    let number = written.rests_on?;
    Some((Table::Journal, record(id, number)))
}

/// A named point of a job, to be written.
pub fn point(id: &str, point: &Point) -> Order {
    let name = format!("{id}/{:016}", point.moment);
    Order::Put(Table::Points, name, point.write())
}

/// What is to be written of a job.
pub fn orders(entry: &Entry, written: Written) -> Vec<Order> {
    let id = &entry.id;
    let mut orders = vec![line(entry)];
    let (from, _) = names(id);
    for (digest, bytes) in written.drawings {
        orders.push(Order::Put(
            Table::Drawings,
            format!("{from}{digest}"),
            bytes,
        ));
    }
    for (number, bytes) in written.records {
        orders.push(Order::Put(Table::Journal, record(id, number), bytes));
    }
    if let Some(first) = written.from {
        orders.push(Order::DeleteBetween(
            Table::Journal,
            from,
            record(id, first),
        ));
    }
    orders
}

/// The line of a job on the list, to be written.
pub fn line(entry: &Entry) -> Order {
    Order::Put(Table::Jobs, entry.id.clone(), entry.write())
}

/// What begins a job that this device has nothing of yet.
pub fn begun(plan: Plan, changed: u64) -> (Entry, Vec<Order>) {
    let mut job = Job::begun(Rc::new(plan));
    let written = job.journal.follow(&job.history, &job.plan);
    let next = Step::of(&job.plan).name().to_string();
    let entry = Entry::of(&new_id(), &job.plan, next, changed);
    let orders = orders(&entry, written);
    (entry, orders)
}

/// Makes jobs of the plans that were kept before there were jobs, each in one go with its leaving the
/// slot. A plan that cannot be read stays in its slot; one that lost something leaves its bytes there.
///
/// # Errors
/// One sentence when the storage cannot be read or written.
pub async fn take_over() -> Result<(), String> {
    for (place, slot) in SLOTS.into_iter().enumerate() {
        let Some(bytes) = storage::read(Table::Plans, slot).await? else {
            continue;
        };
        let Ok(opened) = file::read(&bytes) else {
            continue;
        };
        let (_, mut orders) = begun(opened.plan, clock::moment() + place as u64);
        orders.push(Order::Delete(Table::Plans, slot.to_string()));
        if !opened.losses.is_empty() {
            let name = format!("{slot}, as it was");
            orders.push(Order::Put(Table::Plans, name, bytes));
        }
        storage::write(&orders).await?;
    }
    Ok(())
}

/// Bytes of before there were jobs that could not be read, or not all of them.
///
/// # Errors
/// One sentence when the storage cannot be read.
pub async fn unread() -> Result<Vec<Vec<u8>>, String> {
    let left = storage::all(Table::Plans, None).await?;
    Ok(left.into_iter().map(|(_, bytes)| bytes).collect())
}

/// Tables that an archive holds, under the names they have in it.
const ARCHIVED: [(&str, Table); 4] = [
    ("jobs", Table::Jobs),
    ("journal", Table::Journal),
    ("drawings", Table::Drawings),
    ("points", Table::Points),
];

/// Everything of every job, as one file.
///
/// # Errors
/// One sentence when the storage cannot be read.
pub async fn archive() -> Result<Vec<u8>, String> {
    let mut blocks = Vec::new();
    for (name, table) in ARCHIVED {
        let stored = storage::all(table, None).await?.into_iter();
        blocks.extend(stored.map(|(key, bytes)| (format!("{name}/{key}"), bytes)));
    }
    Ok(Archive::write(&blocks))
}

/// Puts the jobs of an archive on this device, beside those that are here, each whole or not at all. One that
/// is here as it is in the archive stays; one that is here and differs comes as another job. Gives how many
/// came.
///
/// # Errors
/// One sentence when the storage cannot be read or written; what came before that stays.
pub async fn take_in(archive: Archive) -> Result<usize, String> {
    let here: BTreeMap<String, Vec<u8>> =
        storage::all(Table::Jobs, None).await?.into_iter().collect();
    let mut jobs: BTreeMap<String, Vec<(Table, String, Vec<u8>)>> = BTreeMap::new();
    for (name, bytes) in archive.blocks {
        let Some((table, id, rest)) = placed(&name) else {
            continue;
        };
        jobs.entry(id).or_default().push((table, rest, bytes));
    }
    let mut came = 0;
    for (id, blocks) in jobs {
        let id = match here.contains_key(&id) {
            true if is_here(&id, &here, &blocks).await? => continue,
            true => new_id(),
            false => id,
        };
        storage::write(&brought(&id, blocks)).await?;
        came += 1;
    }
    Ok(came)
}

/// Whether all of a job of an archive is on this device as it is there. One that was harmed here is not.
async fn is_here(
    id: &str,
    lines: &BTreeMap<String, Vec<u8>>,
    blocks: &[(Table, String, Vec<u8>)],
) -> Result<bool, String> {
    let (from, until) = names(id);
    for (_, table) in ARCHIVED {
        let stored = match table {
            Table::Jobs => Vec::new(),
            _ => storage::all(table, Some((&from, &until))).await?,
        };
        let stored: BTreeMap<&str, &Vec<u8>> = stored
            .iter()
            .filter_map(|(name, bytes)| Some((name.strip_prefix(&from)?, bytes)))
            .collect();
        let mut of_table = blocks.iter().filter(|(of, ..)| *of == table);
        let is_same = |(_, rest, bytes): &(Table, String, Vec<u8>)| match table {
            Table::Jobs => lines.get(id) == Some(bytes),
            _ => stored.get(rest.as_str()) == Some(&bytes),
        };
        if !of_table.all(is_same) {
            return Ok(false);
        }
    }
    Ok(true)
}

/// Where a block of an archive belongs: its table, its job, and what it is of it.
fn placed(name: &str) -> Option<(Table, String, String)> {
    let (table, key) = name.split_once('/')?;
    let (_, table) = ARCHIVED.into_iter().find(|(name, _)| *name == table)?;
    let (id, rest) = key.split_once('/').unwrap_or((key, ""));
    let is_id = !id.is_empty() && id.len() <= 64 && id.bytes().all(|b| b.is_ascii_alphanumeric());
    (is_id && rest.is_empty() == (table == Table::Jobs))
        .then(|| (table, id.to_string(), rest.to_string()))
}

/// What puts a job of an archive on this device. Without its line it is listed all the same.
fn brought(id: &str, blocks: Vec<(Table, String, Vec<u8>)>) -> Vec<Order> {
    let is_listed = blocks.iter().any(|(table, ..)| *table == Table::Jobs);
    let put = |(table, rest, bytes): (Table, String, Vec<u8>)| match table {
        Table::Jobs => Order::Put(table, id.to_string(), bytes),
        _ => Order::Put(table, format!("{id}/{rest}"), bytes),
    };
    let mut orders: Vec<Order> = blocks.into_iter().map(put).collect();
    if !is_listed {
        orders.push(Order::Put(Table::Jobs, id.to_string(), Vec::new()));
    }
    orders
}

/// Deletes a job for good.
fn gone(id: &str) -> [Order; 4] {
    let (from, until) = names(id);
    [
        Order::Delete(Table::Jobs, id.to_string()),
        Order::DeleteBetween(Table::Journal, from.clone(), until.clone()),
        Order::DeleteBetween(Table::Drawings, from.clone(), until.clone()),
        Order::DeleteBetween(Table::Points, from, until),
    ]
}

/// What the names of a job's records and drawings begin with, and a name behind the last of them.
fn names(id: &str) -> (String, String) {
    // The sign behind the stroke.
    (format!("{id}/"), format!("{id}0"))
}

fn record(id: &str, number: u32) -> String {
    format!("{id}/{number:010}")
}
