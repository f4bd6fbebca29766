//! What the page knows at one moment, and the only way from one moment to the next.
//!
//! The plan and the hands on it are a [`Session`] of the core; beside it lies what belongs to the
//! screen alone: where the paper lies, what is laid open, how the keeping stands. No effects here.

use std::rc::Rc;

use borewright_core::design::Design;
use borewright_core::desk::{
    Choice, Gesture, Intent, Notice, PaperMove, ScreenPoint, Session, View,
};
use borewright_core::plan::{LevelId, Plan};
use borewright_core::shape::{Point, Pos};
use yew::{Reducible, UseReducerDispatcher};

/// Everything the page shows.
#[derive(Clone, PartialEq)]
pub struct Desk {
    /// The plan and the hands on it.
    pub session: Session,
    /// What was worked out last, and from which plan.
    pub derived: Derived,
    /// Where the paper lies on the screen.
    pub view: View,
    /// Pixels the sheet has, across and down.
    pub area: (f64, f64),
    /// What lies open in the slip's place instead of what is chosen.
    pub open: Option<Leaf>,
    /// How much of the drawing under the plan shows, per cent.
    pub fade: u8,
    /// Where the plan is kept.
    pub keeping: Keeping,
    /// Something that takes a while.
    pub wait: Option<Wait>,
}

/// What follows from one plan. Compared by identity.
#[derive(Clone)]
pub struct Derived {
    /// The plan it was worked out from.
    pub plan: Rc<Plan>,
    /// What follows from it.
    pub design: Rc<Design>,
}

impl Derived {
    /// Works it out.
    pub fn of(plan: &Rc<Plan>) -> Self {
        let (plan, design) = (plan.clone(), Rc::new(Design::of(plan)));
        Self { plan, design }
    }
}

impl PartialEq for Derived {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.design, &other.design)
    }
}

/// What can lie open in the slip's place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Leaf {
    /// The job: open, save, share, settings.
    Job,
    /// Title, units, rules, bits and cables.
    Settings,
    /// The list of findings.
    Findings,
    /// What makes a number of the tally.
    Count(Count),
    /// One bore, by its number.
    Bore(u32),
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
    /// A plan was worked out.
    Derived(Derived),
    /// Lay something open in the slip's place, or close it.
    Lay(Option<Leaf>),
    /// Show this much of the drawing, per cent.
    Fade(u8),
    /// How the keeping stands.
    Keep(Keeping),
    /// Something takes a while, or is done.
    Wait(Option<Wait>),
    /// Say one sentence.
    Say(Notice),
    /// Another session altogether.
    Begin(Session, Keeping),
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

/// How acts reach the desk.
pub type Dispatcher = UseReducerDispatcher<Desk>;

impl Desk {
    /// A page with a session on it.
    pub fn of(session: Session) -> Self {
        let derived = Derived::of(&session.plan);
        Self {
            session,
            derived,
            view: View::default(),
            area: (0.0, 0.0),
            open: None,
            fade: 45,
            keeping: Keeping::Nothing,
            wait: None,
        }
    }

    fn act(&mut self, act: Act) {
        match act {
            Act::Want(intent) => self.want(&intent),
            Act::Hand(gesture, pixels, free) => {
                let reach = self.view.reach(pixels, free);
                self.want(&Intent::Gesture(self.view.gesture(&gesture), reach));
            }
            Act::Paper(paper) => self.view = self.view.moved(&paper),
            Act::Zoom(at, factor) => {
                let middle = ScreenPoint::new(self.area.0 / 2.0, self.area.1 / 2.0);
                self.view = self.view.zoomed(at.unwrap_or(middle), factor);
            }
            Act::ShowAll => self.show_all(),
            Act::Visit(visit) => self.visit(visit),
            Act::Sized(width, height) => self.size(width, height),
            Act::Derived(derived) => self.derived = derived,
            Act::Lay(leaf) => self.open = leaf,
            Act::Fade(fade) => self.fade = fade.min(100),
            Act::Keep(keeping) => self.keeping = keeping,
            Act::Wait(wait) => self.wait = wait,
            Act::Say(notice) => self.session.notice = Some(notice),
            Act::Begin(session, keeping) => {
                self.derived = Derived::of(&session.plan);
                self.session = session;
                self.keeping = keeping;
                self.show_all();
            }
        }
    }

    fn want(&mut self, intent: &Intent) {
        let before = (self.session.chosen, self.session.level);
        self.session = self.session.after(intent);
        if self.session.chosen.is_some() && self.session.chosen != before.0 {
            self.open = None;
        }
        let replaced = matches!(intent, Intent::Open(_) | Intent::NewPlan);
        if replaced || self.session.level != before.1 {
            self.show_all();
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
            let middle = ScreenPoint::new(self.area.0 / 2.0, self.area.1 / 2.0);
            let (from, to) = (shown, middle);
            self.view = self.view.moved(&PaperMove {
                from,
                to,
                factor: 1.0,
            });
        }
    }

    fn show_all(&mut self) {
        self.view = match extent(&self.session) {
            Some(corners) => View::showing(corners, self.area.0, self.area.1),
            None => View::default(),
        };
    }
}

/// Opposite corners of everything drawn on the shown level, the picture under it included.
fn extent(session: &Session) -> Option<(Pos, Pos)> {
    let plan = session.shown_plan();
    let level = plan.level(session.level)?;
    let walls = level.walls.iter().flat_map(|wall| [wall.from, wall.to]);
    let mut places: Vec<Pos> = walls.map(Point::pos).collect();
    if let (true, Some(scan)) = (places.is_empty(), &level.sheet.scan) {
        let (width, height) = (f64::from(scan.width), f64::from(scan.height));
        let corners = [(0.0, 0.0), (width, 0.0), (0.0, height), (width, height)];
        places.extend(corners.map(|pixel| level.sheet.placing.to_plan(pixel)));
    }
    let first = *places.first()?;
    let fold = |pick: fn(f64, f64) -> f64| {
        let over = |a: Pos, b: &Pos| Pos::new(pick(a.x, b.x), pick(a.y, b.y));
        places.iter().fold(first, over)
    };
    Some((fold(f64::min), fold(f64::max)))
}

impl Reducible for Desk {
    type Action = Act;

    fn reduce(self: Rc<Self>, act: Act) -> Rc<Self> {
        let mut next = (*self).clone();
        next.act(act);
        Rc::new(next)
    }
}
