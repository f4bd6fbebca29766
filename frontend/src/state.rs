//! What the page knows at one moment, and the only way from one moment to the next.
//!
//! The plan and the hands on it are a [`Session`] of the core; beside it lies what belongs to the
//! screen alone: where the paper lies, what is laid open, how the keeping stands. No effects here.

mod better;
mod changed;
mod place;
mod sight;

use std::collections::BTreeSet;
use std::rc::Rc;

use borewright_core::desk::{
    Choice, Gesture, Intent, Notice, PaperMove, ScreenPoint, Session, Step, Tool, View,
};
use borewright_core::file::job::Journal;
use borewright_core::plan::{LevelId, Plan, Reply};
use borewright_core::schedule::Phase;
use borewright_core::shape::Pos;
use borewright_core::sheet::{Size, Stack};
use borewright_core::tongue::Tongue;
use yew::{Reducible, UseReducerDispatcher};

use crate::worker::End;

pub use changed::on_change;
pub use place::{Begun, Place};

/// Everything the page shows.
#[derive(Clone)]
pub struct Desk {
    /// The plan and the hands on it.
    pub session: Session,
    /// Where the paper lies on the screen.
    pub view: View,
    /// Pixels the sheet has, across and down.
    pub area: (f64, f64),
    /// Where a drag that moves the paper holds it.
    pub held: Option<ScreenPoint>,
    /// What lies open in the slip's place instead of what is chosen.
    pub open: Option<Leaf>,
    /// Whether the slip is one line: it is about what the tool in hand has just placed.
    pub folded: bool,
    /// Which job lies on the table: another number for each plan that takes the place of one.
    pub job: u32,
    /// How much of the drawing under the plan shows, per cent: while tracing, and afterwards.
    pub fades: (u8, u8),
    /// The size of paper sheets are laid out for.
    pub paper: Size,
    /// The tongue of the crew's sheets.
    pub tongue: Tongue,
    /// A plan that came by link is laid out to read, in place of the table.
    pub reading: bool,
    /// A reply that came by link, waiting to be taken in.
    pub reply: Option<Rc<Reply>>,
    /// Pages that are not printed, by their places.
    pub left_out: BTreeSet<usize>,
    /// Which sheets lie in the step Sheets; all of them if none is named.
    pub stack: Option<Stack>,
    /// Whether sheets are being laid out.
    pub laying_out: bool,
    /// What the step Site shows.
    pub site: SiteLook,
    /// Where the plan is kept.
    pub keeping: Keeping,
    /// Which job of this device it is.
    pub place: Place,
    /// What this device had of the job when it came to the table.
    pub journal: Rc<Journal>,
    /// The plan the table was begun with. Compared by identity.
    pub begun: Rc<Plan>,
    /// The last named point that was made: its number on this page, and what it is called.
    pub point: (u32, String),
    /// A plan that is no job of this device yet becomes one even if nobody changes it.
    pub keeps: bool,
    /// The list of the jobs on this device lies in place of the table.
    pub jobs: bool,
    /// A job in whose opening the page came to an end the last time.
    pub ended: Option<Rc<str>>,
    /// What is to come to the table once the person agrees to lose what only lies there.
    pub waits: Option<Rc<Begun>>,
    /// Whether the page still waits for what it begins with.
    pub opening: bool,
    /// Something that takes a while.
    pub wait: Option<Wait>,
    /// How the long improvement of the ways stands.
    pub improving: Improving,
}

/// What the step Site shows.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct SiteLook {
    /// The part of the work.
    pub phase: Phase,
    /// The drawing in place of the list, where there is room for one of them.
    pub drawing: bool,
    /// What is done is left out of the list.
    pub left_only: bool,
}

/// How the long improvement of the plan's ways stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Improving {
    /// It is done, or has not begun.
    #[default]
    Resting,
    /// A worker is at it: so much is done, per cent.
    Begun(u8),
    /// The person stopped it for the plan as it stands.
    Stopped,
    /// It came to nothing, for this reason.
    Failed(End),
}

/// What can lie open in the slip's place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Leaf {
    /// The job: open, save, share, settings.
    Job,
    /// The link.
    Share,
    /// The lists as files.
    Lists,
    /// What changed since an older version.
    Change,
    /// What builder and owner agreed to.
    Agreements,
    /// Title, units, rules, bits and cables.
    Settings,
    /// The list of findings.
    Findings,
    /// What makes a number of the tally.
    Count(Count),
}

/// A number of the tally.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Count {
    /// Drops.
    Drops,
    /// Cable of one kind, by its place in the catalogue.
    Cable(u16),
    /// Reels.
    Reels,
    /// Bores.
    Bores,
    /// Nail plates.
    Plates,
    /// Hours.
    Hours,
    /// How close to the best possible.
    Best,
}

/// How the plan is kept on this device.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Keeping {
    /// Nothing of one's own yet: the demo, or a link.
    Nothing,
    /// A change waits to be written.
    Waiting,
    /// All of it is on this device.
    Kept,
    /// It could not be written: one sentence.
    Failed(String),
}

/// Something that takes a while.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Wait {
    /// What is being done.
    pub words: String,
    /// How far it is, per cent, if that is known.
    pub done: Option<u8>,
}

/// One step from moment to moment.
pub enum Act {
    /// An intent for the session.
    Want(Intent),
    /// A gesture on the sheet, with a reach in pixels and whether snapping is off.
    Hand(Gesture<ScreenPoint>, f64, bool),
    /// The paper moved under the hands.
    Paper(PaperMove),
    /// Everything larger by a factor about a place, or about the middle.
    Zoom(Option<ScreenPoint>, f64),
    /// Show the whole level.
    ShowAll,
    /// Choose something and bring it into sight.
    Visit(Visit),
    /// The sheet has another size.
    Sized(f64, f64),
    /// Lay something open in the slip's place, or close it.
    Lay(Option<Leaf>),
    /// Open a slip that is folded to a line.
    Unfold,
    /// Show this much of the drawing, per cent.
    Fade(u8),
    /// Lay sheets out for another paper.
    PaperSize(Size),
    /// Say the crew's sheets in another tongue.
    Tongue(Tongue),
    /// Lay some of the sheets out, or all of them.
    Stack(Option<Stack>),
    /// Sheets are being laid out, or all of them are.
    LayOut(bool),
    /// Show something else in the step Site.
    Look(SiteLook),
    /// Print a page, by its place, or leave it out.
    Print(usize, bool),
    /// How the keeping stands.
    Keep(Keeping),
    /// This plan is on the device now.
    Kept(Rc<Plan>),
    /// What lies on this table, by its number, has become a job of this device.
    Placed(u32, Place),
    /// Lay the list of jobs out in place of the table, or put it away.
    Jobs(bool),
    /// The page came to an end in the opening of this job the last time: the list lies open for it.
    Ended(Option<Rc<str>>),
    /// Put what waits on the table, though what lies there is nowhere else; or leave it.
    Displace(bool),
    /// The job on the table as it is on the device now, shown where it is looked at.
    Follow(Box<Begun>),
    /// Make a named point of the job as it stands: "Printed".
    Point(&'static str),
    /// Another window is to change the job on the table; here it is looked at from now on.
    HandOn,
    /// Something takes a while, or is done.
    Wait(Option<Wait>),
    /// The long improvement stands so.
    Improve(Improving),
    /// Lay a plan that came by link out to read, or on the table.
    Read(bool),
    /// A reply came by link, or is dealt with.
    Replied(Option<Rc<Reply>>),
    /// Say one sentence.
    Say(Notice),
    /// Another session altogether.
    Begin(Box<Begun>),
}

/// Something to choose and to bring into sight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Visit {
    /// What to choose.
    pub choice: Option<Choice>,
    /// What to lay open.
    pub leaf: Option<Leaf>,
    /// Where it is.
    pub at: Option<(LevelId, Pos)>,
}

impl PartialEq for Desk {
    fn eq(&self, other: &Self) -> bool {
        let screen = |desk: &Self| {
            (
                desk.view,
                desk.area,
                desk.held,
                desk.open,
                desk.folded,
                desk.fades,
            )
        };
        self.session == other.session
            && screen(self) == screen(other)
            && (self.paper, self.tongue, self.stack, &self.left_out)
                == (other.paper, other.tongue, other.stack, &other.left_out)
            && (self.site, self.laying_out) == (other.site, other.laying_out)
            && Rc::ptr_eq(&self.begun, &other.begun)
            && Rc::ptr_eq(&self.journal, &other.journal)
            && (&self.place, self.keeps, &self.point) == (&other.place, other.keeps, &other.point)
            && (self.jobs, self.opening) == (other.jobs, other.opening)
            && self.ended == other.ended
            && self.waits.is_some() == other.waits.is_some()
            && (&self.keeping, &self.wait) == (&other.keeping, &other.wait)
            && (self.improving, self.job, self.reading)
                == (other.improving, other.job, other.reading)
            && self.reply == other.reply
    }
}

/// How acts reach the desk.
pub type Dispatcher = UseReducerDispatcher<Desk>;

impl Desk {
    /// A page with a session on it.
    pub fn of(session: Session) -> Self {
        Self {
            place: Place::default(),
            journal: Rc::default(),
            begun: session.plan.clone(),
            point: (0, String::new()),
            keeps: false,
            jobs: false,
            ended: None,
            waits: None,
            opening: true,
            session,
            view: View::default(),
            area: (0.0, 0.0),
            held: None,
            open: None,
            folded: false,
            job: 0,
            fades: (80, 10),
            paper: Size::default(),
            tongue: Tongue::default(),
            reading: false,
            reply: None,
            left_out: BTreeSet::new(),
            stack: None,
            laying_out: false,
            site: SiteLook::default(),
            keeping: Keeping::Nothing,
            wait: None,
            improving: Improving::default(),
        }
    }

    /// How much of the drawing shows in this step, per cent.
    pub fn fade(&self) -> u8 {
        if self.is_tracing() {
            self.fades.0
        } else {
            self.fades.1
        }
    }

    fn is_tracing(&self) -> bool {
        matches!(self.session.step, Step::Drawing | Step::Framing)
    }

    fn act(&mut self, act: Act) {
        match act {
            Act::Want(intent) => self.want(&intent),
            Act::Hand(gesture, pixels, free) => self.hand(&gesture, pixels, free),
            Act::Paper(paper) => self.view = self.view.moved(&paper),
            Act::Zoom(at, factor) => {
                let middle = ScreenPoint::new(self.area.0 / 2.0, self.area.1 / 2.0);
                self.view = self.view.zoomed(at.unwrap_or(middle), factor);
            }
            Act::ShowAll => self.show_all(),
            Act::Visit(visit) => self.visit(visit),
            Act::Sized(width, height) => self.size(width, height),
            Act::Lay(leaf) => self.open = leaf,
            Act::Unfold => {
                self.folded = false;
                self.uncover();
            }
            Act::Fade(fade) => match self.is_tracing() {
                true => self.fades.0 = fade.min(100),
                false => self.fades.1 = fade.min(100),
            },
            Act::PaperSize(size) => {
                self.paper = size;
                self.left_out.clear();
            }
            Act::Tongue(tongue) => {
                self.tongue = tongue;
                self.left_out.clear();
            }
            Act::Stack(stack) => self.lay_out(stack),
            Act::LayOut(begun) => self.laying_out = begun,
            Act::Look(look) => self.site = look,
            Act::Print(place, true) => drop(self.left_out.remove(&place)),
            Act::Print(place, false) => drop(self.left_out.insert(place)),
            Act::Keep(keeping) => self.keeping = keeping,
            Act::Kept(plan) => self.kept_now(&plan),
            Act::Placed(table, place) if table == self.job => self.place = place,
            Act::Placed(..) => {}
            Act::Jobs(jobs) => self.jobs = jobs,
            Act::Ended(id) => {
                self.jobs = id.is_some();
                self.ended = id;
            }
            Act::Displace(agreed) => self.displace(agreed),
            Act::Follow(begun) => self.follow(*begun),
            Act::HandOn => self.hand_on(),
            Act::Point(name) => self.make_point(name),
            Act::Wait(wait) => self.wait = wait,
            Act::Improve(improving) => self.improving = improving,
            Act::Read(reading) => self.reading = reading && self.session.read_only,
            Act::Replied(reply) => self.replied(reply),
            Act::Say(notice) => self.session.notice = Some(notice),
            Act::Begin(begun) => self.come(*begun),
        }
    }

    /// Goes to the sheets, of which some lie there or all.
    fn lay_out(&mut self, stack: Option<Stack>) {
        self.want(&Intent::GoTo(Step::Sheets));
        self.stack = stack;
        self.left_out.clear();
    }

    /// Whoever comes to the step Site finds the part of the work that goes on.
    fn arrived(&mut self) {
        self.site.phase = Phase::next(&self.session.plan);
        self.site.drawing = false;
    }

    /// A reply waits on the list of agreements, which lies open for it.
    fn replied(&mut self, reply: Option<Rc<Reply>>) {
        if reply.is_some() {
            self.reading = false;
            self.open = Some(Leaf::Agreements);
        }
        self.reply = reply;
    }

    /// A drag that nothing on the sheet takes moves the paper.
    fn hand(&mut self, gesture: &Gesture<ScreenPoint>, pixels: f64, free: bool) {
        let reach = self.view.reach(pixels, free);
        let plan_gesture = self.view.gesture(gesture);
        if let Gesture::DragBegan { from, .. } = plan_gesture {
            // On site nothing is moved by hand: a drag moves the paper.
            let is_site = self.session.step == Step::Site;
            let taken = !is_site && self.session.takes_drag(from, reach);
            self.held = gesture.stretch().map(|(from, _)| from).filter(|_| !taken);
        }
        let Some(from) = self.held else {
            return self.want(&Intent::Gesture(plan_gesture, reach));
        };
        self.held = None;
        if let Some((_, to)) = gesture.stretch() {
            self.view = self.view.moved(&PaperMove {
                from,
                to,
                factor: 1.0,
            });
            self.held = (!matches!(gesture, Gesture::DragEnded { .. })).then_some(to);
        }
    }

    fn want(&mut self, intent: &Intent) {
        if *intent == Intent::LetGo && self.open.is_some() {
            self.open = None;
            return;
        }
        self.keeps |= *intent == Intent::TakeOver;
        let next = self.session.after(intent);
        let before = std::mem::replace(&mut self.session, next);
        if self.session.chosen != before.chosen || matches!(intent, Intent::Take(_)) {
            self.folded = is_placed(&before, &self.session);
        }
        if self.session.chosen.is_some() && self.session.chosen != before.chosen {
            self.open = None;
            if !self.folded {
                self.uncover();
            }
        }
        let on_site = |session: &Session| session.step == Step::Site;
        if on_site(&self.session) != on_site(&before) {
            // The list takes room from the sheet or gives it back: all of it is shown anew.
            self.area = (0.0, 0.0);
            self.arrived();
        }
        if self.stack.is_some() && matches!(intent, Intent::GoTo(_)) {
            self.stack = None;
            self.left_out.clear();
        }
        let handed_over = |plan: &Plan| plan.record.handed_over.is_some();
        if handed_over(&self.session.plan) && !handed_over(&before.plan) {
            self.make_point("Handed over");
        }
        if before.read_only && !self.session.read_only {
            self.taken_over();
        }
        if self.session.level != before.level {
            self.show_all();
        }
    }

    /// Moves the paper so that what is chosen does not lie under its slip.
    fn uncover(&mut self) {
        let place = self
            .session
            .chosen
            .and_then(|choice| self.session.position(choice));
        let Some((_, at)) = place.filter(|(level, _)| *level == self.session.level) else {
            return;
        };
        let (from, (width, height)) = (self.view.to_screen(at), self.clear_area());
        let to = ScreenPoint::new(from.x.min(width - 40.0), from.y.min(height - 40.0));
        let is_plain = self.session.draft.is_none() && self.held.is_none();
        if is_plain && from != to {
            self.view = self.view.moved(&PaperMove {
                from,
                to,
                factor: 1.0,
            });
        }
    }

    fn size(&mut self, width: f64, height: f64) {
        let first = self.area == (0.0, 0.0);
        self.area = (width, height);
        if first {
            self.show_all();
        }
    }

    fn visit(&mut self, visit: Visit) {
        if let Some((level, _)) = visit.at.filter(|(level, _)| *level != self.session.level) {
            self.want(&Intent::ShowLevel(level));
        }
        self.want(&Intent::Choose(visit.choice));
        self.open = visit.leaf;
        if let Some((_, at)) = visit.at {
            let shown = self.view.to_screen(at);
            let (width, height) = self.clear_area();
            let (from, to) = (shown, ScreenPoint::new(width / 2.0, height / 2.0));
            self.view = self.view.moved(&PaperMove {
                from,
                to,
                factor: 1.0,
            });
        }
    }
}

/// Whether what is chosen now was placed by the tool that is still in hand, ready for the next.
fn is_placed(before: &Session, after: &Session) -> bool {
    let placing = matches!(after.tool, Tool::Drop | Tool::Opening);
    placing && after.tool == before.tool && !Rc::ptr_eq(&before.plan, &after.plan)
}

impl Reducible for Desk {
    type Action = Act;

    fn reduce(self: Rc<Self>, act: Act) -> Rc<Self> {
        let mut next = (*self).clone();
        next.act(act);
        if !Rc::ptr_eq(&self.session.design, &next.session.design) {
            next.improving = Improving::Resting;
        }
        changed::changed();
        Rc::new(next)
    }
}
