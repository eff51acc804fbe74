//! One open document: edits, history, commands, derived values and notices.

mod aiming;
mod bench_card;
mod bench_run;
mod comes_to;
mod command;
mod command_info;
mod command_words;
mod commands;
mod commands_layout;
mod cost_words;
mod derived;
mod edit;
mod edit_apply;
mod edit_error;
mod file_hands;
mod finding;
mod help_page;
mod help_pages;
mod history;
mod house_amounts;
mod house_build;
mod house_copy;
mod house_edit;
mod house_outdated;
mod house_rework;
mod house_stock;
mod house_view;
mod job;
mod keeping_safe;
mod kept_limits;
mod larder_edit;
mod larder_import;
mod larder_rows;
mod larder_updates;
mod licences;
mod limits_text;
mod linked;
mod lots;
mod no_proposal_text;
mod notices;
mod notices_content;
mod notices_dilution;
mod notices_glass;
mod notices_house;
mod notices_limits;
mod notices_rules;
mod open_document;
mod opening;
mod other_keys;
mod points_kept;
mod preview;
mod proposal_text;
mod provenance;
mod recipe_chart;
mod recipe_draft;
mod recipe_figures;
mod recipe_house;
mod recipe_method;
mod recipe_service;
mod recipe_sheet;
mod recipe_sources;
mod recipe_unresolved;
mod recipe_words;
mod references;
mod remedy_edit;
mod remedy_text;
mod remedying;
mod reporting;
mod rules_asked;
mod rules_edit;
mod rules_found;
mod saving;
mod selecting;
mod service_papers;
mod service_view;
mod service_words;
mod several_rows;
mod sheet_export;
mod sheet_file;
mod sheet_view;
mod shortcut;
mod side_by_side;
mod side_figures;
mod side_report;
mod starting;
mod step_label;
mod submission_edit;
mod swap_edit;
mod swapping;
mod tasting_answers;
mod tasting_edit;
mod tasting_kept;
mod tasting_paper;
mod tasting_report;
mod tasting_results;
mod tasting_setup;
mod text;
mod today;
mod trade_off;
mod trial_code;
mod trial_days;
mod trial_edit;
mod trial_history;
mod trial_mix;
mod trial_photos;
mod trial_tree;
mod trial_words;
mod untouched;

pub use crate::kitchen::{
    At, Between, CAUTION as SHELF_CAUTION, Caution, Cost, FlowError, Keeping, Minutes, Span, Spans,
    YieldSaid, ready_between, scale_to_input, scale_to_servings, scale_to_yield, start_between,
    usual_steps,
};
pub use aiming::{
    AimGroup, AimReference, FamilyAim, RegionAim, aim_references, family_aims, region_aims,
};
pub use bench_card::bench_card;
pub use bench_run::{
    PouredDifference, as_planned, as_poured, no_longer_matches, planned, poured_difference,
    poured_difference_text,
};
pub use comes_to::{ComesTo, comes_to};
pub use command::Command;
pub use command_info::CommandInfo;
pub use commands::COMMANDS;
pub use cost_words::{cost_lines, cost_text, packs_line};
pub use derived::{Derived, Near, TrialPoint};
pub use edit::{Edit, EditError, MergeKey};
pub use file_hands::{FileHands, ReadHand, SaveOrder, WriteHand};
pub use finding::{Findable, find_rank};
pub use help_page::{HelpBlock, HelpPage};
pub use help_pages::{HELP_PAGES, help_page};
pub use history::{History, UndoStep};
pub use house_amounts::same_amounts;
pub use house_build::{
    StreamNameError, add_input, add_output, add_step, free_stream, move_step, open_before,
    open_streams, remove_input, remove_output, remove_step, rename_stream, set_process,
    stream_names,
};
pub use house_copy::{HouseStart, copy_of};
pub use house_edit::{HOUSE_MADE, HouseEdit, users_of_output};
pub use house_outdated::outdated_rows;
pub use house_rework::house_failures;
pub use house_stock::{StockFor, stocks_for, take_stock};
pub use house_view::{HousePaper, HouseView, OutputFigures, Safety, house_view};
pub use job::{Ended, Job, Reins};
pub use kept_limits::{Breach, as_most, bounded_value, breach, glass_fill, limits_on, pour_breach};
pub use larder_edit::{LarderEdit, User, users_of, uses_of};
pub use larder_import::{import_edit, is_taken};
pub use larder_rows::{LarderColumn, LarderPlace, LarderQuery, LarderRow, arranged, larder_rows};
pub use larder_updates::kept_as_own;
pub use licences::{LICENCES, licence_lines};
pub use limits_text::{
    binding_text, bounded_text, breach_text, held_back_text, held_text, limit_text,
    pour_breach_text, pour_limits_text,
};
pub use linked::{LinkedMove, LinkedPour, Linking, linked_pours, move_linked};
pub use lots::{
    Aim, LotOutcome, USUAL_TITRATION, aim_of, brought_batch, expected_readings, keep_lot,
    lot_outcome, weighed_list, weighed_text,
};
pub use no_proposal_text::no_proposal_text;
pub use notices::{Action, Notice, Severity, notices};
pub use open_document::{Selection, Session};
pub use opening::{FoundDocument, OpenFailure, Opening};
pub use other_keys::{KeyGroup, OTHER_KEYS, OtherKey, key_groups, keys_text, shortcut_words};
pub use preview::Preview;
pub use proposal_text::{
    also_text, boxes_text, change_size_text, ending_text, evidence_text, kept_reason, part_title,
    pours_text, proof_text, proposal_title, rounding_text,
};
pub use provenance::{FigureProvenance, Provenance, drawn_from, provenance};
pub use recipe_draft::{RecipeDraft, import_larder, recipe_draft};
pub use recipe_method::drawn_method;
pub use recipe_sheet::recipe;
pub use recipe_unresolved::{amount_said, is_unresolved};
pub use references::{Reference, references};
pub use remedy_edit::RemedyEdit;
pub use remedy_text::{grow_remedy, remedy_details, remedy_row_text, remedy_text, take_remedy};
pub use reporting::{MOST_DRAWS, ReportAsk, Reported, input_text, measure_next, report_text};
pub use rules_asked::rules_of;
pub use rules_edit::{choose_product, enter_under, mend_rule, tick_rule, untick_rule};
pub use rules_found::RulesFound;
pub use saving::{SaveOutcome, SaveWhere};
pub use service_papers::{ServicePapers, clock_text, rehearsal_lines, service_papers};
pub use service_view::{SERVICE_AT, ServiceView};
pub use service_words::{
    alcohol_lines, apart_each, batch_lines, bottle_lines, countries, equipment_needed, make_lines,
    plan_lines, plan_summary, rounding_line, service_text, shopping_text, taken_text, to_buy_text,
    weight_and_volume,
};
pub use several_rows::RowsChange;
pub use sheet_export::{
    Over, SheetExport, SheetExportError, export_sheet, exported_sheet, write_sheet,
};
pub use sheet_file::{CHART_PX, CHART_SIDES_PX, SheetFile, SheetFileError};
pub use sheet_view::{SheetView, sheet_view};
pub use shortcut::{Key, Shortcut};
pub use side_by_side::{MOST_COLUMNS, PourCell, PourRow, SideBySide, TrialColumn, side_by_side};
pub use side_figures::FigureRow;
pub use starting::{
    Start, blank_spec, in_unit, spec_from_classic, spec_from_family, starts_locked,
};
pub use submission_edit::SubmissionEdit;
pub use swap_edit::{SwapEdit, grow_swap, take_swap};
pub use swapping::{SwapAsk, SwapFound, SwapWhat, swap_larder};
pub use tasting_answers::{
    Question, answer_of, answer_range, answered, filled_ballots, missing_ballots, questions,
    with_answer, with_late_taster,
};
pub use tasting_edit::{TastingEdit, sample_of};
pub use tasting_kept::{SampleNow, sample_names, sample_now};
pub use tasting_paper::{BALLOT_COLUMNS, ballots, choice_asked, cups_to_pour, serving_table};
pub use tasting_report::{answer_cells, answer_heads, answer_table, tasting_markdown};
pub use tasting_results::{TastingResults, tasted_point, tasting_results};
pub use tasting_setup::{
    MethodKind, SetupField, SetupTrouble, TastingSetup, is_quick, method_name, taster_names,
    tasting_seed,
};
pub use text::{change_text, document_as_text, obstacle_text, pour_name, verdict_text};
pub use today::{moment, now, today};
pub use trade_off::TradeOff;
pub use trial_code::trial_code;
pub use trial_edit::TrialEdit;
pub use trial_history::{TrialFigures, TrialHistory, TrialLine, trial_history};
pub use trial_photos::PhotoFailure;
pub use trial_tree::{TreeRow, trial_tree};
pub use trial_words::change_words;
