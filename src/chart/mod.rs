//! Charts as plain data: series, marks, regions and axes, a table and one sentence each.
//!
//! Windows and sheets draw the same charts; nothing here knows pixels or colours.

mod data;
mod dilution;
mod flow;
mod flow_layout;
mod flow_words;
mod labels;
mod map;
mod map_target;
mod map_words;
mod over_trials;
mod plan_bars;
mod share_words;
mod strength_beside;
mod strip;
mod strip_ghost;
mod time_line;
mod trade_off;

pub use data::{Chart, Hue, IN_ORDER, Mark, MarkKind, Scale, Series, SeriesKind, Table};
pub use dilution::dilution_chart;
pub use flow::{FlowAsk, FlowHit, FlowNode, FlowNodeKind, FlowRibbon, FlowScene, flow_scene};
pub use flow_words::FlowShare;
pub use labels::{LabelBox, line_boxes, place_labels, place_title, stands_alone};
pub use map::{Frame, MapAsk, Spot, SpotKind, balance_map, opening_axes};
pub use map_words::{free_words, read_mark};
pub use over_trials::{OverTrial, over_trials};
pub use plan_bars::plan_bars;
pub use share_words::{brings_words, error_words, flavour_words};
pub use strength_beside::{PathBeside, strength_beside};
pub use strip::{StripAsk, strength_strip, temperature_strip};
pub use strip_ghost::StripGhost;
pub use time_line::{TimeBar, TimeLine, minutes_text, span_text, time_line};
pub use trade_off::{TradeOffAsk, TradeOffPoint, trade_off_chart};
