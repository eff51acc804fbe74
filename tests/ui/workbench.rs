//! The window in a harness, driven the way a person drives it.

use crate::painted::{Painted, count_text, find_text};
use eframe::egui::accesskit::{Role, Toggled};
use eframe::egui::{Event, Key, Modifiers, PointerButton, Pos2, Rect, Vec2, vec2};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use egui_kittest::{Harness, Node};
use equipour::model::{Document, Pour, Target};
use equipour::session::Session;
use equipour::store::{Builtin, DEMO, Settings, read_text};
use equipour::ui::Window;
use std::sync::{Arc, LazyLock};

/// Ctrl as a keyboard outside a Mac sends it.
pub(crate) const CTRL: Modifiers = Modifiers {
    ctrl: true,
    command: true,
    ..Modifiers::NONE
};
/// Ctrl and Shift.
pub(crate) const CTRL_SHIFT: Modifiers = Modifiers {
    shift: true,
    ..CTRL
};

static BUILTIN: LazyLock<Arc<Builtin>> =
    LazyLock::new(|| Arc::new(Builtin::load().expect("the built-in larder reads")));

/// A session on a document.
pub(crate) fn session_on(document: Document) -> Session {
    Session::new(Arc::clone(&BUILTIN), document)
}

/// The demo document.
pub(crate) fn demo() -> Document {
    read_text(DEMO).expect("the demo reads").document
}

/// The window with what is open in it.
pub(crate) struct Workbench {
    pub(crate) harness: Harness<'static, Window>,
}

impl Workbench {
    /// The window on the demo.
    pub(crate) fn demo() -> Self {
        Self::on(demo())
    }

    /// The window on a document.
    pub(crate) fn on(document: Document) -> Self {
        Self::sized(document, Settings::default(), vec2(1280.0, 800.0))
    }

    /// The window with settings and a size in points.
    pub(crate) fn sized(document: Document, settings: Settings, size: Vec2) -> Self {
        Self::over(session_on(document), settings, size)
    }

    /// The window on a session of one's own.
    pub(crate) fn over(session: Session, settings: Settings, size: Vec2) -> Self {
        Self::with(Window::new(session, settings, None), size)
    }

    /// A window in a harness.
    pub(crate) fn with(window: Window, size: Vec2) -> Self {
        let harness = Harness::builder()
            .with_size(size)
            // Short frames, so that two clicks can be one double click.
            .with_step_dt(1.0 / 60.0)
            .with_max_steps(30)
            .build_ui_state(|ui, window: &mut Window| window.frame(ui), window);
        let mut bench = Self { harness };
        bench.run();
        bench
    }

    /// Runs until nothing changes any more and no file is under way.
    #[track_caller]
    pub(crate) fn run(&mut self) {
        self.harness.run();
        for _ in 0..20_000 {
            if !self.harness.state().is_filing() {
                return;
            }
            std::thread::sleep(std::time::Duration::from_millis(1));
            self.run_frames();
        }
        panic!("a file is under way for too long");
    }

    /// Runs until nothing changes any more, whatever is under way.
    #[track_caller]
    pub(crate) fn run_frames(&mut self) {
        self.harness.run();
    }

    pub(crate) fn session(&self) -> &Session {
        self.harness.state().session()
    }

    /// The pour at this place of the trial on screen.
    #[track_caller]
    pub(crate) fn pour(&self, place: usize) -> &Pour {
        let trial = self.session().trial().expect("a trial is on screen");
        &trial.pours[place]
    }

    /// Its amount, ml (or g, or pieces).
    #[track_caller]
    pub(crate) fn amount(&self, place: usize) -> f64 {
        self.pour(place).amount.value().expect("an amount")
    }

    /// The target of the drink on screen.
    #[track_caller]
    pub(crate) fn target(&self) -> &Target {
        let spec = self.session().spec().expect("a drink is on screen");
        spec.target.as_ref().expect("a target")
    }

    /// Steps that undo could take back.
    pub(crate) fn steps(&self) -> usize {
        self.session().history().past().count()
    }

    /// Lets a second pass, so that the next click is no double click.
    pub(crate) fn wait(&mut self) {
        let now = self.harness.ctx.input(|input| input.time);
        self.harness.input_mut().time = Some(now + 1.0);
        self.harness.step();
        self.harness.input_mut().time = None;
        self.run();
    }

    /// The control of that role and name.
    #[track_caller]
    pub(crate) fn control<'t>(&'t self, role: Role, name: &'t str) -> Node<'t> {
        self.harness.get_by_role_and_label(role, name)
    }

    /// Whether a control of that role and name is there.
    pub(crate) fn has(&self, role: Role, name: &str) -> bool {
        self.harness
            .query_all_by_role_and_label(role, name)
            .next()
            .is_some()
    }

    /// Whether the words stand somewhere in the accessibility tree.
    pub(crate) fn says(&self, words: &str) -> bool {
        self.harness.root().children_recursive().any(|node| {
            let node = node.accesskit_node();
            let holds = |text: Option<String>| text.is_some_and(|text| text.contains(words));
            holds(node.label()) || holds(node.value())
        })
    }

    /// How often exactly these words were painted in the last frame.
    pub(crate) fn painted(&self, words: &str) -> usize {
        let shapes = self.harness.output().shapes.iter();
        shapes.map(|shape| count_text(&shape.shape, words)).sum()
    }

    /// Every text painted in the last frame that begins so.
    pub(crate) fn texts(&self, words: &str) -> Vec<Painted> {
        let mut found = Vec::new();
        for shape in &self.harness.output().shapes {
            find_text(&shape.shape, words, &mut found);
        }
        found
    }

    /// Presses a button, ticks a box or picks an item with the mouse.
    #[track_caller]
    pub(crate) fn click(&mut self, role: Role, name: &str) {
        self.control(role, name).click();
        self.run();
    }

    /// Moves the mouse onto a control.
    #[track_caller]
    pub(crate) fn hover(&mut self, role: Role, name: &str) {
        self.control(role, name).hover();
        self.run();
    }

    /// What a control says about itself beside its name.
    #[track_caller]
    pub(crate) fn description(&self, role: Role, name: &str) -> String {
        let node = self.control(role, name).accesskit_node();
        node.data().description().unwrap_or_default().to_owned()
    }

    /// Whether a control is there but cannot be used.
    #[track_caller]
    pub(crate) fn is_disabled(&self, role: Role, name: &str) -> bool {
        self.control(role, name).accesskit_node().is_disabled()
    }

    /// What the charts preview.
    pub(crate) fn previewed(&self) -> Option<String> {
        let window = self.harness.state();
        let name = window.view().previewed(window.session());
        name.map(str::to_owned)
    }

    /// Presses a button with the mouse.
    #[track_caller]
    pub(crate) fn button(&mut self, name: &str) {
        self.click(Role::Button, name);
    }

    /// Brings a button of a list into view, then presses it.
    #[track_caller]
    pub(crate) fn far_button(&mut self, name: &str) {
        self.control(Role::Button, name).scroll_to_me();
        self.run();
        self.button(name);
    }

    /// Presses the lowest of several buttons of one name.
    #[track_caller]
    pub(crate) fn lowest_button(&mut self, name: &str) {
        let buttons = self.harness.query_all_by_role_and_label(Role::Button, name);
        let lowest = buttons.max_by(|a, b| a.rect().top().total_cmp(&b.rect().top()));
        lowest.expect("such a button").click();
        self.run();
    }

    /// Presses the topmost of several buttons of one name, as in the bar of menus.
    #[track_caller]
    pub(crate) fn topmost_button(&mut self, name: &str) {
        let buttons = self.harness.query_all_by_role_and_label(Role::Button, name);
        let topmost = buttons.min_by(|a, b| a.rect().top().total_cmp(&b.rect().top()));
        topmost.expect("such a button").click();
        self.run();
    }

    /// Clicks a label that can be chosen.
    #[track_caller]
    pub(crate) fn choose(&mut self, words: &str) {
        self.harness.get_by_label(words).click();
        self.run();
    }

    /// Opens a combo and takes one of its items.
    #[track_caller]
    pub(crate) fn pick(&mut self, combo: &str, item: &str) {
        self.click(Role::ComboBox, combo);
        self.button(item);
    }

    /// Presses a key.
    pub(crate) fn press(&mut self, key: Key) {
        self.harness.key_press(key);
        self.run();
    }

    /// Presses a key with modifiers.
    pub(crate) fn chord(&mut self, modifiers: Modifiers, key: Key) {
        self.harness.key_press_modifiers(modifiers, key);
        self.run();
    }

    /// Types into whatever has the focus.
    pub(crate) fn type_text(&mut self, text: &str) {
        self.harness.event(Event::Text(text.to_owned()));
        self.run();
    }

    /// Clicks the amount of a pour, types over it and presses Enter.
    #[track_caller]
    pub(crate) fn enter_amount(&mut self, pour: &str, text: &str) {
        self.wait();
        self.click(Role::TextInput, &format!("Amount of {pour}"));
        self.type_text(text);
        self.press(Key::Enter);
    }

    /// The text in the amount field of a pour.
    #[track_caller]
    pub(crate) fn shown_amount(&self, pour: &str) -> String {
        let name = format!("Amount of {pour}");
        let node = self.control(Role::TextInput, &name);
        node.value().unwrap_or_default()
    }

    /// Clicks a number, types over it key by key and presses Enter.
    #[track_caller]
    pub(crate) fn enter_number(&mut self, name: &str, text: &str) {
        // A menu would close if what lies behind it scrolled.
        let low = self.harness.ctx.content_rect().bottom() - 60.0;
        if self.place(Role::SpinButton, name).bottom() > low {
            self.control(Role::SpinButton, name).scroll_to_me();
        }
        self.wait();
        self.click(Role::SpinButton, name);
        for digit in text.chars() {
            self.type_text(&digit.to_string());
        }
        self.press(Key::Enter);
    }

    /// The first label that begins so.
    #[track_caller]
    pub(crate) fn label_starting(&self, words: &str) -> String {
        let mut nodes = self.harness.root().children_recursive();
        nodes
            .find_map(|node| {
                let text = node.accesskit_node().value()?;
                text.starts_with(words).then_some(text)
            })
            .unwrap_or_else(|| panic!("no label begins with {words}"))
    }

    /// Whether a toggle is on.
    #[track_caller]
    pub(crate) fn is_on(&self, name: &str) -> bool {
        let node = self.control(Role::Button, name).accesskit_node();
        node.toggled() == Some(Toggled::True)
    }

    /// What a combo shows.
    #[track_caller]
    pub(crate) fn shown(&self, combo: &str) -> String {
        let node = self.control(Role::ComboBox, combo);
        node.value().unwrap_or_default()
    }

    /// The handle by which a row is dragged.
    #[track_caller]
    pub(crate) fn grip(&self, name: &str) -> Pos2 {
        self.harness.get_by_label(name).rect().center()
    }

    /// Messages that wait to be dismissed.
    pub(crate) fn messages(&self) -> Vec<String> {
        self.harness.state().messages().cloned().collect()
    }

    /// Where a control stands.
    #[track_caller]
    pub(crate) fn place(&self, role: Role, name: &str) -> Rect {
        self.control(role, name).rect()
    }

    /// Presses the left button at a place.
    pub(crate) fn press_at(&mut self, at: Pos2) {
        self.harness.hover_at(at);
        self.pointer(at, true);
        self.run();
    }

    /// Moves the pressed pointer in ten frames.
    pub(crate) fn move_to(&mut self, from: Pos2, to: Pos2) {
        for part in 1..=10 {
            let share = part as f32 / 10.0;
            self.harness.hover_at(from + (to - from) * share);
        }
        self.run();
    }

    /// Lets the left button go.
    pub(crate) fn release_at(&mut self, at: Pos2) {
        self.pointer(at, false);
        self.harness.remove_cursor();
        self.run();
    }

    /// A whole drag with the mouse.
    pub(crate) fn drag(&mut self, from: Pos2, to: Pos2) {
        self.press_at(from);
        self.move_to(from, to);
        self.release_at(to);
    }

    fn pointer(&self, pos: Pos2, pressed: bool) {
        self.harness.event(Event::PointerButton {
            pos,
            button: PointerButton::Primary,
            pressed,
            modifiers: Modifiers::NONE,
        });
    }
}
