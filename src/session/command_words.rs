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
        Command::History => "steps list undo redo past log",
        Command::NewTrial => "version variant iteration branch copy",
        Command::PreviousTrial => "back version earlier",
        Command::NextTrial => "forward version later",
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
        Command::TrialsView => "tree versions notebook",
        Command::SubmissionView => "competition entry contest hand in judges",
        Command::LarderView => "ingredients pantry stock price allergen allergens spirits",
        Command::WholeField => "zoom frame fit all classics",
        Command::NextAxes => "bitter strength sour sweet across up chart",
        Command::Scale => "steps units distance jnd",
        Command::References => "classics points published hide",
        Command::Trail => "path earlier hide",
        Command::NextPanel | Command::PreviousPanel => "focus jump column side",
        Command::Starred => "pin pinned reference favourite star",
        Command::Regions => "areas band literature hide",
        Command::Spread => "uncertainty error ellipse confidence",
        Command::Tables => "screen reader accessible numbers",
        Command::Theme => "dark light night colour color contrast looks",
        Command::NextUnit => "ml oz ounces cl millilitres",
        Command::Palette => "search find commands",
        Command::Help => "shortcuts keyboard hotkeys cheat",
        Command::AboutView => "help explain model sources trust manual documentation",
        Command::Guide => "tour tutorial introduction lesson learn begin",
        Command::Messages => "notices errors warnings said log",
        Command::Quit => "exit close end leave",
    }
}
