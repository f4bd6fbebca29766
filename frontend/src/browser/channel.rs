//! What the windows of this browser tell one another about jobs (Broadcast Channel, WHATWG HTML). A
//! browser without it tells nothing, and a window that only looks on shows what it opened.

use gloo::events::EventListener;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{BroadcastChannel, MessageEvent};

use super::scope;

/// The name of the channel.
const NAME: &str = "borewright jobs";

/// What is told; each with the name of a job.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum News {
    /// The job was written.
    Written(String),
    /// A window that looks on asks for it.
    Asked(String),
}

impl News {
    fn text(&self) -> String {
        match self {
            Self::Written(id) => format!("written {id}"),
            Self::Asked(id) => format!("asked {id}"),
        }
    }

    fn read(text: &str) -> Option<Self> {
        let (what, id) = text.split_once(' ')?;
        match what {
            "written" => Some(Self::Written(id.to_string())),
            "asked" => Some(Self::Asked(id.to_string())),
            _ => None,
        }
    }
}

thread_local! {
    // One for all that this window says, so that it does not hear itself.
    static CHANNEL: Option<BroadcastChannel> = BroadcastChannel::new(&scope::own(NAME)).ok();
}

/// Tells the other windows.
pub fn tell(news: &News) {
    CHANNEL.with(|channel| {
        if let Some(channel) = channel {
            // Who is not told sees it when the job is opened again.
            let _ = channel.post_message(&JsValue::from_str(&news.text()));
        }
    });
}

/// Hears the other windows for as long as what comes back is kept.
pub fn hear(onnews: impl Fn(News) + 'static) -> Option<EventListener> {
    CHANNEL.with(|channel| {
        let channel = channel.as_ref()?;
        Some(EventListener::new(channel, "message", move |event| {
            let message = event.dyn_ref::<MessageEvent>();
            let text = message.and_then(|message| message.data().as_string());
            let news = text.and_then(|text| News::read(&text));
            news.into_iter().for_each(&onnews);
        }))
    })
}
