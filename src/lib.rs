//! Equipour: a workbench for people who develop drinks.
//!
//! It predicts what a twist on a classic will be like before it is poured, compares it with the
//! classics, and proposes the smallest change that restores its balance. The layers stand in
//! `DEVELOPERS.md`; an arrow between them only points down.

pub mod balance;
pub mod chart;
pub mod cli;
pub mod kitchen;
pub mod measure;
pub mod model;
pub mod physics;
pub mod rebalance;
pub mod service;
pub mod session;
pub mod solver;
pub mod store;
pub mod tasting;
pub mod ui;
pub mod units;
