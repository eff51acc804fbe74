//! Words that people look for a command by, beside its name.

use super::command::Command;

/// Words in small letters; none of them has to stand in the command's name.
pub(super) const fn search_words(command: Command) -> &'static str {
    match command {
        Command::Start => "new drink cocktail classic twist begin recipe family blank",
        Command::NewDocument => "empty blank close notebook",
        Command::Open => "load file recent",
        Command::OpenDemo => "example sample tutorial try",
        Command::Save => "keep write file disk",
        Command::SaveAs => "copy rename file duplicate",
        Command::ImportLarder => "csv spreadsheet table load ingredients",
        Command::ExportLarder => "csv spreadsheet table write ingredients",
        Command::ImportRecipe => "schema json web page load read",
        Command::SaveSheet => "print pdf export png svg markdown recipe share paper judges",
        Command::Undo => "back revert mistake",
        Command::Redo => "again forward",
        Command::Find => "search filter look for box",
        Command::History => "steps list undo redo past log",
        Command::NewTrial => "version variant iteration branch child copy",
        Command::PreviousTrial => "back version earlier parent ancestor before",
        Command::NextTrial => "forward version later child",
        Command::FlickTrial => "ab a/b toggle switch other",
        Command::AddPour => "ingredient insert spirit bottle",
        Command::Swap => "replace exchange substitute ingredient alternative",
        Command::Substitutions => "replace alternatives instead missing",
        Command::BringToSpec => "juice brix refractometer adjust acid batch measure correct",
        Command::ApplyFirst => "take accept solve best balance fix",
        Command::KeepFirst => "take accept solve version",
        Command::NextProposal => "preview suggestion look",
        Command::AimAt => "target goal classic ratio range",
        Command::TargetHere => "target goal set",
        Command::RemoveDrink => "delete throw bin",
        Command::Assumptions => {
            "options preferences ounce dash barspoon jigger currency threshold title"
        }
        Command::BalanceView => "map pours sweet sour strength abv ph figures",
        Command::HouseView => "syrup juice wash infusion preparation prep cordial homemade",
        Command::TrialsView => "tree versions notebook parent child family descent",
        Command::SubmissionView => "competition entry contest hand in judges",
        Command::LarderView => "ingredients pantry stock price allergen allergens spirits",
        Command::WholeField => "zoom frame fit all classics",
        Command::NextAxes => "bitter strength sour sweet across up chart",
        Command::Scale => "steps units distance jnd",
        Command::References => "classics points published hide",
        Command::Trail => "path earlier parent hide",
        Command::NextPanel | Command::PreviousPanel => "focus jump column side",
        Command::Starred => "pin pinned reference favourite star",
        Command::Regions => "areas band literature hide",
        Command::Spread => "uncertainty error ellipse confidence",
        Command::Tables => "screen reader accessible numbers",
        Command::Theme => {
            "dark light night theme mode black white colour color contrast looks appearance"
        }
        Command::Settings => {
            "options preferences looks theme dark appearance defaults begin new documents configuration"
        }
        Command::Larger => "zoom in bigger size text scale",
        Command::Smaller => "zoom out size text scale",
        Command::UsualSize => "zoom reset 100 scale",
        Command::LeftPanel | Command::RightPanel => "side hide show collapse column room",
        Command::BottomPanel => "strips contributions hide show collapse room",
        Command::UsualLayout => "reset panels window default widths",
        Command::RepeatExport => "export repeat rewrite pdf last",
        Command::NextUnit => "ml oz ounces cl millilitres",
        Command::Palette => "search find commands",
        Command::Help => "shortcuts keyboard hotkeys cheat",
        Command::AboutView => "help explain model sources trust manual documentation",
        Command::Guide => "tour tutorial introduction lesson learn begin",
        Command::Messages => "notices errors warnings said log",
        Command::Licences => "license copyright notices open source crates legal about",
        Command::Quit => "exit close end leave",
    }
}
