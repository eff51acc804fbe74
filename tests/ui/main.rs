//! How the window behaves: pressed, dragged and typed at, without a screen.
//!
//! Every run also checks that each control has a name for screen readers and that every character
//! on screen is in the fonts; both are on in the harness by default.

mod aiming;
mod amounts;
mod bench;
mod charts;
mod chilling;
mod comparing;
mod files;
mod flavours;
mod house;
mod house_lots;
mod house_outdated;
mod house_room;
mod house_typing;
mod jiggers;
mod keys;
mod larder;
mod larder_drafts;
mod larder_overtaken;
mod limits;
mod linking;
mod looks;
mod lots;
mod pours;
mod proposal_cards;
mod proposals;
mod reading_off;
mod rehearsals;
mod remedies;
mod rules;
mod settings;
mod sizes;
mod sliders;
mod starting;
mod submission;
mod submission_export;
mod submission_service;
mod swap_list;
mod swaps;
mod tables;
mod target;
mod tasted;
mod tastings;
mod tastings_results;
mod technique;
mod trade_off;
mod trials;
mod unsaved;
mod workbench;
