//! Which ingredients can take which job in a drink: our convention, no source.

use crate::kitchen::{Contents, is_dashed, is_weighed, is_whole};
use crate::model::{Ingredient, Role};
use crate::physics::component::Component;

/// Weakest base, % vol.
const BASE_FROM_PCT_VOL: f64 = 15.0;
/// Weakest modifier, % vol.
const MODIFIER_FROM_PCT_VOL: f64 = 10.0;
/// Least sweetness of a sweetener, g/L as sucrose.
const SWEET_FROM_G_PER_L: f64 = 150.0;
/// Least acid of a sour, g/L as citric acid.
const SOUR_FROM_G_PER_L: f64 = 10.0;
/// Least fat, protein and gum of what gives body, g/L.
const BODY_FROM_G_PER_L: f64 = 10.0;
/// Least salt of a seasoning, g/L.
const SALT_FROM_G_PER_L: f64 = 20.0;
/// Strongest lengthener, % vol.
const LENGTH_TO_PCT_VOL: f64 = 15.0;
/// Sweetest lengthener, g/L as sucrose.
const LENGTH_TO_SWEET_G_PER_L: f64 = 150.0;
/// Sourest lengthener, g/L as citric acid.
const LENGTH_TO_SOUR_G_PER_L: f64 = 15.0;

/// The rule of a job in a sentence, for tooltips.
pub const fn role_rule(role: Role) -> &'static str {
    match role {
        Role::Base => "A base is 15 % vol or more; bitters and extracts are none.",
        Role::Modifier => "A modifier is 10 % vol or more; bitters and extracts are none.",
        Role::Sweet => "A sweetener holds 150 g/L of sucrose equivalent or more.",
        Role::Sour => "A sour holds 10 g/L of acid as citric or more.",
        Role::Body => "Body holds 10 g/L of fat, protein and gum or more.",
        Role::Aroma => "Aroma is what has that usual job, and all that is poured by the dash.",
        Role::Length => {
            "A lengthener is a liquid up to 15 % vol, 150 g/L of sucrose equivalent and 15 g/L of acid."
        }
        Role::Seasoning => "A seasoning has that usual job or holds 20 g/L of salt or more.",
        Role::Other => "Without a fixed job: what is of the same kind or has the same usual job.",
    }
}

/// Whether an ingredient can take the job of `replaced` in a drink.
///
/// What it is made of decides; its usual job in the larder is enough, too. Fruits, nuts and the like
/// need work in the kitchen before they pour, so they only replace their own kind. Where no alcohol,
/// sugar, acid or salt says how much of one does for the other, what is weighed replaces what is
/// weighed, and what is poured what is poured. [`role_rule`] says each rule in words.
pub fn fills_role(
    role: Role,
    (item, contents): (&Ingredient, &Contents),
    (replaced, replaced_contents): (&Ingredient, &Contents),
) -> bool {
    let same_kind = kind(item) == kind(replaced);
    if is_whole(item) {
        return same_kind;
    }
    let measured = matches!(
        role,
        Role::Base | Role::Sweet | Role::Sour | Role::Seasoning
    );
    if !measured && is_weighed(item, contents) != is_weighed(replaced, replaced_contents) {
        return false;
    }
    match role {
        Role::Other => same_kind || replaced.role != Role::Other && item.role == replaced.role,
        _ => item.role == role || is_made_for(role, item, contents),
    }
}

/// Whether what an ingredient is made of says that it can take the job.
fn is_made_for(role: Role, item: &Ingredient, contents: &Contents) -> bool {
    // Made for another job by its dose, whatever is in it.
    let dashed = is_dashed(item);
    let per_l = |grams: f64| grams * contents.density_g_per_ml * 1000.0;
    let parts = &contents.per_gram;
    let strength = parts.percent_vol();
    let (sweet, sour) = (per_l(parts.sweet_g()), per_l(parts.sour_g()));
    match role {
        Role::Base => !dashed && strength >= BASE_FROM_PCT_VOL,
        Role::Modifier => !dashed && strength >= MODIFIER_FROM_PCT_VOL,
        Role::Sweet => !dashed && sweet >= SWEET_FROM_G_PER_L,
        Role::Sour => !dashed && sour >= SOUR_FROM_G_PER_L,
        Role::Body => {
            let body = parts[Component::Fat] + parts[Component::Protein] + parts[Component::Gum];
            !dashed && per_l(body) >= BODY_FROM_G_PER_L
        }
        Role::Aroma => dashed,
        Role::Length => {
            let watery = parts[Component::Water] + parts[Component::Ethanol] > 0.5;
            let plain = strength <= LENGTH_TO_PCT_VOL
                && sweet <= LENGTH_TO_SWEET_G_PER_L
                && sour <= LENGTH_TO_SOUR_G_PER_L;
            !dashed && watery && plain
        }
        Role::Seasoning => per_l(parts[Component::Salt]) >= SALT_FROM_G_PER_L,
        Role::Other => false,
    }
}

fn kind(item: &Ingredient) -> String {
    item.kind.trim().to_lowercase()
}
