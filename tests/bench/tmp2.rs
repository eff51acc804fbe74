#![allow(warnings)]
mod problems;
use equipour::rebalance::*;
use problems::*;
fn main() {
    let mut seeds = Seeds::new(20_261_125);
    let q = question(&mut seeds, 8);
    let p = nearest(&q).unwrap();
    for u in &q.unknowns {
        println!("{} step {} {}..{}", u.present, u.step, u.lower, u.upper);
    }
    println!("{p:?}");
}
