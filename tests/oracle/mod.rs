//! Our solving put beside something else: worked examples of the literature, brute force, and a SAT solver that shares
//! no code with ours.

mod collide;
mod draws;
mod examples;
mod fewest;
mod handbook;
mod second;
mod weeks;
