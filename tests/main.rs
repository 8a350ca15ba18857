//! Every test that goes through the front door, in one binary.

mod catalog;
