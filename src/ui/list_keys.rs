//! A list that was opened by key closes when one of its items is taken by key, and its control has the
//! focus again. The toolkit closes lists by the pointer and by Escape only.

use eframe::egui::{ComboBox, Context, Id, Popup};

fn kept() -> Id {
    Id::unique("list opened by key")
}

/// After everything is shown.
pub(super) fn follow(ctx: &Context) {
    let focused = ctx.memory(eframe::egui::Memory::focused);
    if let Some(list) = focused.filter(|id| ComboBox::is_open(ctx, *id)) {
        ctx.data_mut(|data| data.insert_temp(kept(), list));
        return;
    }
    let Some(list) = ctx.data(|data| data.get_temp::<Id>(kept())) else {
        return;
    };
    let is_open = ComboBox::is_open(ctx, list);
    if is_open && !focused.is_some_and(|id| is_taken(ctx, list, id)) {
        return;
    }
    ctx.data_mut(|data| data.remove::<Id>(kept()));
    if is_open {
        Popup::close_all(ctx);
    }
    // After a press of the pointer elsewhere that has the focus, or nothing shall.
    let pressed = ctx.input(|input| input.pointer.any_pressed() || input.pointer.any_released());
    if is_open || (focused.is_none() && !pressed) {
        ctx.memory_mut(|memory| memory.request_focus(list));
        ctx.request_repaint();
    }
}

/// Whether an item that lies above the list's own control was pressed.
fn is_taken(ctx: &Context, list: Id, item: Id) -> bool {
    let [list, item] = [list, item].map(|id| ctx.read_response(id));
    list.zip(item)
        .is_some_and(|(list, item)| item.clicked() && item.layer_id != list.layer_id)
}
