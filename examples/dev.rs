use std::collections::BTreeSet; use std::sync::Arc;
use weekwright::{input::catalog::Entry, input::profile::Profile, input::place::Place, request, split, solution};
fn main(){
  let mut entries=request::Entries::new();
  let t0=std::time::Instant::now();
  for f in std::fs::read_dir("catalog").unwrap(){ let t=std::fs::read_to_string(f.unwrap().path()).unwrap(); let v:Vec<Entry>=serde_yaml::from_str(&t).unwrap(); for e in v { entries.insert(e.id.clone(),Arc::new(e)); } }
  eprintln!("catalog {} in {:?}",entries.len(),t0.elapsed());
  let path=std::env::args().nth(1).unwrap();
  let mut p:Profile=serde_yaml::from_str(&std::fs::read_to_string(&path).unwrap()).unwrap();
  if let Some(pl)=&p.place { let t=std::fs::read_to_string(format!("profiles/places/{pl}.yaml")).unwrap(); let pl:Place=serde_yaml::from_str(&t).unwrap(); p.equipment=Some(pl.equipment);}  
  let r=request::resolve::resolve(p,entries,BTreeSet::new(),0);
  eprintln!("candidates {} kept {}",r.candidates.len(),solution::reduce::kept(&r).len());
  for l in &r.lowered { eprintln!("{l:?}"); }
  let t=std::time::Instant::now();
  let splits=split::design::candidates(&r);
  eprintln!("splits {} in {:?}",splits.len(),t.elapsed());
  for s in &splits { 
    eprintln!("== {} {:?}",s.name,s.days.iter().map(|d|d.idea.clone()).collect::<Vec<_>>());
    let w=weekwright::rules::weekly_model(&r,s,&solution::reduce::kept(&r));
    eprintln!("  picks {} vars {} rows {} pairs {}",w.picks.len(),w.model.vars.len(),w.model.rows.len(),w.pairs.len());
    let t=std::time::Instant::now();
    let sol=solution::search::solve(&r,s,Default::default());
    eprintln!("  {:?}",t.elapsed());
    match sol { None=>eprintln!("  none"), Some(sol)=>{ for t in &sol.tiers { eprintln!("  {t:?}"); }
      for d in 0..r.days.len() { println!("  day {} {}",r.days[d].label(), s.days[d].idea); let mut secs=0i64;
        for x in sol.done.iter().filter(|x|x.day==d) { let c=&r.candidates[x.candidate]; secs+=(c.start_s+x.sets*c.work_s+(x.sets-1)*c.rest_s) as i64; println!("    {} x{} {} {}x{} {:?} w{}",c.id,x.sets,if x.paired {"P"} else {""},c.amount,c.rest_s,c.duty,c.worth);}
        println!("     straight {} of {}",secs/60,r.days[d].work_s()/60); }
      for (m,t) in &r.targets { let h:u32=sol.done.iter().map(|x|x.sets*r.candidates[x.candidate].halves(*m)).sum(); print!(" {m} {}..{}: {}",t.low,t.high,h as f32/2.0);} println!();
      } }
  }
}
