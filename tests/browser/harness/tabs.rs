//! Several tabs of one browser.

use crate::page::Page;
use fantoccini::wd::WindowHandle;

/// A tab that can be gone back to.
pub struct Tab(WindowHandle);

impl Page {
    /// The tab that is looked at.
    pub fn tab(&self) -> Tab {
        let handle = self.browser.wait(async |client| client.window().await);
        Tab(handle.expect("a tab"))
    }

    /// Opens the served page, with `more` after its address, in another tab and looks at that from now
    /// on.
    pub fn open_tab(&self, more: &str) -> Tab {
        let tab = self.blank_tab();
        self.go(more);
        tab
    }

    /// Opens another tab with nothing in it and looks at that from now on.
    pub fn blank_tab(&self) -> Tab {
        let opened = self
            .browser
            .wait(async |client| client.new_window(true).await);
        let tab = Tab(opened.expect("another tab").handle);
        self.look_at(&tab);
        tab
    }

    /// Looks at another tab from now on.
    pub fn look_at(&self, tab: &Tab) {
        let handle = tab.0.clone();
        let switched = self
            .browser
            .wait(async |client| client.switch_to_window(handle).await);
        switched.expect("the tab is open");
    }

    /// Closes the tab that is looked at; another one is looked at next.
    pub fn close_tab(&self, next: &Tab) {
        let closed = self
            .browser
            .wait(async |client| client.close_window().await);
        closed.expect("the tab closes");
        self.look_at(next);
    }
}
