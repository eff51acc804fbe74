//! What stays: documents, settings, autosave and the built-in larder.
//!
//! The only place that touches files.

mod autosave;
mod beginning;
mod beside;
mod builtin;
mod builtin_rows;
mod file_name;
mod folders;
mod format;
mod landing;
mod lock_file;
mod newer;
mod open_marks;
mod photos;
mod plain_table;
mod read;
mod recipe_fields;
mod recipe_import;
mod recipe_line;
mod recipe_match;
mod recipe_number;
mod recipe_source;
mod recipe_words;
mod rule_file;
mod settings;
mod source_names;
mod starters;
mod substitution_table;
mod table_cells;
mod table_columns;
mod table_guess;
mod table_ingredient;
mod table_read;
mod table_rows;
mod table_split;
mod table_words;
mod table_write;
mod thumbnail;
mod whole;
mod window_layout;
mod write;

pub use autosave::{Autosave, Recovered, recoverable};
pub use beginning::Beginning;
pub use beside::{backup_path, is_same_place, those_there};
pub use builtin::{Builtin, BuiltinError, DEMO, LARDER_VERSION};
pub use file_name::file_name_of;
pub use folders::{Folders, HOME_VARIABLE};
pub use format::{FORMAT, WRITER};
pub use landing::lands_at;
pub use open_marks::{Marking, OpenMark, OpenMarks};
pub use photos::{MAX_PHOTO_BYTES, PhotoError, copy_photos, keep_photo, photo_folder, read_photo};
pub use plain_table::{PlainTable, write_plain_table};
pub use read::{Opened, ReadError, Stamp, read_document, read_text};
pub use recipe_import::{
    ImportedLine, ImportedRecipe, LineFound, MatchedBy, RecipeError, import_recipe, recipe_text,
};
pub use rule_file::{
    RuleSaveError, built_in_rule_sets, read_rule_set, read_rule_text, rule_set_text, save_rule_set,
};
pub use settings::{
    SCALES_PCT, Settings, ThemeChoice, load_settings, read_settings_text, save_settings,
};
pub use source_names::source_name;
pub use starters::{Starter, starter_preparations};
pub use substitution_table::{save_substitutions, write_substitutions};
pub use table_columns::{Column, End, PlainFigure};
pub use table_guess::guess;
pub use table_read::{Delimiter, Sheet, SheetRow, TableError, read_sheet, table_text};
pub use table_rows::{Refusal, RowError, ingredients};
pub use table_write::{ExportError, exported, save_table, write_table};
pub use thumbnail::{Thumbnail, thumbnail};
pub use window_layout::{LastExport, Shown, WindowLayout, fingerprint, load_layout, save_layout};
pub use write::{SaveError, SaveOnto, document_text, save_document, save_unless, write_export};
