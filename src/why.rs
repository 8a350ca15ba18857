//! Why a plan is as it is: each answer read from the plan or planned again.
