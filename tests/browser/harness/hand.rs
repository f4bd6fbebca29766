//! The pointer: a mouse, or fingers where the page was opened for touch.

use crate::page::Page;
use fantoccini::actions::{
    Actions, InputSource, MOUSE_BUTTON_LEFT, MOUSE_BUTTON_RIGHT, MouseActions, PointerAction,
    TouchActions, WheelAction, WheelActions,
};
use std::time::Duration;

/// Between two moves of a drag.
const STEP: Duration = Duration::from_millis(16);

/// Moves in one drag.
const MOVES: u32 = 12;

/// How long a press is that counts as long.
const LONG: Duration = Duration::from_millis(900);

/// A place in the window, in CSS pixels from its left upper corner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Down.
    pub y: f64,
}

impl Point {
    /// The place `x` to the right and `y` down from here.
    pub fn by(self, x: f64, y: f64) -> Self {
        Self {
            x: self.x + x,
            y: self.y + y,
        }
    }

    /// The place this part of the way to `other`.
    pub fn towards(self, other: Self, part: f64) -> Self {
        self.by((other.x - self.x) * part, (other.y - self.y) * part)
    }
}

impl Page {
    /// Taps or clicks a place.
    pub fn tap_at(&self, place: Point) {
        self.point(vec![move_to(place), DOWN, UP]);
    }

    /// Taps a place twice.
    pub fn double_tap_at(&self, place: Point) {
        self.point(vec![move_to(place), DOWN, UP, DOWN, UP]);
    }

    /// Presses down, moves in small steps, lets go.
    pub fn drag(&self, from: Point, to: Point) {
        self.drag_along(&[from, to]);
    }

    /// Presses at the first place, moves through the others, lets go at the last.
    pub fn drag_along(&self, places: &[Point]) {
        let [first, ..] = places else {
            panic!("a drag needs a place to start")
        };
        let mut moves = vec![move_to(*first), DOWN];
        for pair in places.windows(2) {
            let [from, to] = pair else { continue };
            let parts = (1..=MOVES).map(|step| f64::from(step) / f64::from(MOVES));
            moves.extend(parts.map(|part| move_to(from.towards(*to, part))));
        }
        if self.size.is_touch() {
            moves.push(STILL);
        }
        moves.push(UP);
        self.point(moves);
    }

    /// Presses and moves but does not let go, to look at the page in between.
    pub fn drag_and_hold(&self, from: Point, to: Point) {
        let half = from.towards(to, 0.5);
        self.point(vec![move_to(from), DOWN, move_to(half), move_to(to)]);
    }

    /// Lets go after [`Page::drag_and_hold`].
    pub fn let_go(&self) {
        self.point(vec![UP]);
    }

    /// Moves the pointer without pressing (a mouse only).
    pub fn move_to(&self, place: Point) {
        self.point(vec![move_to(place)]);
    }

    /// What opens the slip: a long press of a finger, or the second button of a mouse.
    pub fn long_press_at(&self, place: Point) {
        if self.size.is_touch() {
            let hold = PointerAction::Pause { duration: LONG };
            return self.point(vec![move_to(place), DOWN, hold, UP]);
        }
        let down = PointerAction::Down {
            button: MOUSE_BUTTON_RIGHT,
        };
        let up = PointerAction::Up {
            button: MOUSE_BUTTON_RIGHT,
        };
        self.point(vec![move_to(place), down, up]);
    }

    /// Turns the wheel over a place; `down` in pixels, negative away from the person.
    pub fn wheel(&self, place: Point, down: i64) {
        let turn = WheelAction::Scroll {
            duration: Some(STEP),
            x: place.x as i64,
            y: place.y as i64,
            delta_x: 0,
            delta_y: down,
        };
        self.act(WheelActions::new("wheel".into()).then(turn).into());
    }

    /// Two fingers around a place, moved from one distance apart to another (touch only).
    pub fn pinch(&self, centre: Point, from_apart: f64, to_apart: f64) {
        self.two_fingers(centre, from_apart, centre, to_apart);
    }

    /// Two fingers side by side, moved together (touch only).
    pub fn two_finger_move(&self, from: Point, to: Point) {
        self.two_fingers(from, 80.0, to, 80.0);
    }

    fn two_fingers(&self, from: Point, from_apart: f64, to: Point, to_apart: f64) {
        assert!(
            self.size.is_touch(),
            "two fingers need a page opened for touch"
        );
        let finger = |name: &str, side: f64| {
            let start = from.by(side * from_apart / 2.0, 0.0);
            let end = to.by(side * to_apart / 2.0, 0.0);
            let parts = (1..=MOVES).map(|step| f64::from(step) / f64::from(MOVES));
            let moves = parts.map(|part| move_to(start.towards(end, part)));
            let all = [move_to(start), DOWN]
                .into_iter()
                .chain(moves)
                .chain([STILL, UP]);
            all.fold(TouchActions::new(name.into()), InputSource::then)
        };
        self.act(Actions::from(finger("thumb", -1.0)).and(finger("finger", 1.0)));
    }

    /// Waits until the page has nothing to do: while it is busy, a finger's tap lasts until it is
    /// done, and counts as a long press.
    fn rest(&self) {
        let idle = self
            .browser
            .wait(async |client| client.execute_async(IDLE, vec![]).await);
        idle.expect("the page comes to rest");
    }

    /// Carries out pointer moves with the hand this page was opened for.
    fn point(&self, moves: Vec<PointerAction>) {
        if self.size.is_touch() {
            self.rest();
            let finger = TouchActions::new("finger".into());
            self.act(moves.into_iter().fold(finger, InputSource::then).into());
        } else {
            let mouse = MouseActions::new("mouse".into());
            self.act(moves.into_iter().fold(mouse, InputSource::then).into());
        }
    }

    pub(crate) fn act(&self, actions: Actions) {
        let done = self
            .browser
            .wait(async |client| client.perform_actions(actions).await);
        done.expect("the window takes the pointer and the keys");
    }
}

/// Calls back once the page is idle.
const IDLE: &str = "const done = arguments[arguments.length - 1];
    requestAnimationFrame(() => requestIdleCallback(() => done()));";

const DOWN: PointerAction = PointerAction::Down {
    button: MOUSE_BUTTON_LEFT,
};
/// A hand that comes to rest before it lets go: else the browser lets the page fly on, and takes the
/// tap that follows for one that stops it.
const STILL: PointerAction = PointerAction::Pause {
    duration: Duration::from_millis(300),
};
const UP: PointerAction = PointerAction::Up {
    button: MOUSE_BUTTON_LEFT,
};

fn move_to(place: Point) -> PointerAction {
    PointerAction::MoveTo {
        duration: Some(STEP),
        x: place.x,
        y: place.y,
    }
}
