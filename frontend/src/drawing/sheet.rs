//! The sheet: takes pointers, wheel and keys, and shows the layers.

use borewright_core::desk::{Act as HandAct, Hands, PointerKind, Signal};
use gloo::timers::callback::Timeout;
use std::cell::RefCell;
use std::rc::Rc;
use web_sys::Element;
use yew::prelude::*;

use super::draft::DraftLayer;
use super::drops::DropLayer;
use super::frame::laid;
use super::walls::WallLayer;
use crate::browser::{clock, pointer};
use crate::hooks::{use_act, use_desk, use_dispatcher, use_size};
use crate::state::{Act, Dispatcher};

/// A finger that rests this long has pressed long, milliseconds; a little over the hands' own time.
const LONG_PRESS: u32 = 520;

/// The sheet with its drawing.
#[component]
pub fn Sheet() -> Html {
    let desk = use_desk();
    let node = use_node_ref();
    let surface = use_surface(&node);
    let onsize = use_act(|(width, height)| Act::Sized(width, height));
    use_size(&node, onsize);
    let onwheel = use_wheel();
    let plan = desk.session.shown_plan().clone();
    let level = desk.session.level;
    html! {
        <div class="Sheet" ref={node} data-tool={format!("{:?}", desk.session.tool)}
            onpointerdown={surface.clone()} onpointermove={surface.clone()} onpointerup={surface.clone()}
            onpointercancel={surface.clone()} onpointerleave={surface}
            oncontextmenu={|event: MouseEvent| event.prevent_default()} {onwheel}>
            <svg class="SheetInk" role="application" aria-label="Sheet" width="100%" height="100%">
                <g transform={laid(&desk.view)}>
                    <WallLayer plan={plan.clone()} {level} chosen={desk.session.chosen} />
                    <DropLayer {plan} {level} chosen={desk.session.chosen} scale={desk.view.scale} />
                    <DraftLayer session={desk.session.clone()} scale={desk.view.scale} />
                </g>
            </svg>
        </div>
    }
}

/// The wheel makes everything larger or smaller about the pointer.
#[hook]
fn use_wheel() -> Callback<WheelEvent> {
    let dispatcher = use_dispatcher();
    Callback::from(move |event: WheelEvent| {
        event.prevent_default();
        let Some(sheet) = sheet_of(&event) else {
            return;
        };
        let at = pointer::place(
            f64::from(event.client_x()),
            f64::from(event.client_y()),
            &sheet,
        );
        let lines = if event.delta_mode() == 1 { 16.0 } else { 1.0 };
        let pixels = event.delta_y() * lines;
        dispatcher.dispatch(Act::Zoom(
            Some(at),
            (-pixels.clamp(-240.0, 240.0) * 0.0015).exp(),
        ));
    })
}

fn sheet_of(event: &Event) -> Option<Element> {
    let target: Element = event.target_dyn_into()?;
    target.closest(".Sheet").ok().flatten()
}

/// What the hands are doing, kept from event to event.
struct Surface {
    hands: RefCell<Hands>,
    timer: RefCell<Option<Timeout>>,
    dispatcher: Dispatcher,
}

/// A callback that takes every pointer event on the sheet.
#[hook]
fn use_surface(node: &NodeRef) -> Callback<PointerEvent> {
    let dispatcher = use_dispatcher();
    let surface = use_memo((), |()| Surface {
        hands: RefCell::default(),
        timer: RefCell::default(),
        dispatcher,
    });
    let node = node.clone();
    use_callback((), move |event: PointerEvent, ()| {
        if let Some(sheet) = node.cast::<Element>() {
            Surface::take(&surface, &event, &sheet);
        }
    })
}

impl Surface {
    fn take(surface: &Rc<Self>, event: &PointerEvent, sheet: &Element) {
        let pointer = pointer::read(event, sheet);
        let free = event.alt_key();
        let signal = match event.type_().as_str() {
            "pointerdown" => {
                pointer::hold(event, sheet);
                Signal::Down(pointer)
            }
            "pointermove" => Signal::Moved(pointer),
            "pointerup" => Signal::Up(pointer),
            "pointercancel" => Signal::Cancelled(pointer),
            _ => Signal::Left(pointer),
        };
        surface.pass(signal, pointer.kind, free);
        surface.wait(Rc::downgrade(surface), pointer.kind);
    }

    fn pass(&self, signal: Signal, kind: PointerKind, free: bool) {
        let acts = self.hands.borrow_mut().after(signal);
        for act in acts {
            self.dispatcher.dispatch(match act {
                HandAct::Hand(gesture) => Act::Hand(gesture, kind.reach(), free),
                HandAct::Paper(paper) => Act::Paper(paper),
            });
        }
    }

    /// Ticks once after a press that may yet become a long one.
    fn wait(&self, surface: std::rc::Weak<Self>, kind: PointerKind) {
        let waiting = self.hands.borrow().is_waiting();
        let mut timer = self.timer.borrow_mut();
        if !waiting {
            *timer = None;
        } else if timer.is_none() {
            *timer = Some(Timeout::new(LONG_PRESS, move || {
                if let Some(surface) = surface.upgrade() {
                    surface.timer.borrow_mut().take();
                    surface.pass(Signal::Waited(clock::now_ms()), kind, false);
                }
            }));
        }
    }
}
