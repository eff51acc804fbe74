#![allow(warnings)]
mod problems;
use equipour::rebalance::*;
use problems::*;
fn main() {
    let mut seeds = Seeds::new(20_261_125);
    let want: usize = std::env::var("WANT").unwrap().parse().unwrap();
    let n: usize = std::env::var("N").unwrap().parse().unwrap();
    for k in 0..100 {
        let q = question(&mut seeds, n);
        if k == want {
            let p = nearest(&q).unwrap();
            println!("{p:?}");
        } else if want == 1000 {
            let p = nearest(&q).unwrap().unwrap();
            println!(
                "{k} {:?} d {} change {}",
                p.evidence, p.distance, p.change_steps
            );
        }
    }
}
