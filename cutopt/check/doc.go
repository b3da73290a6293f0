// Package check recounts plans. [Plan] measures a plan on geometry of its own and lists everything that breaks a rule;
// [Proof] recomputes its bound from the certificate. Neither shares code with the packages that make plans: this
// package links the model, the measures, the bare problem, the certificate and the recount, and nothing else of the
// module.
//
// Whoever receives a plan from elsewhere calls both: an empty list and a nil error together mean that the plan can be
// laid as it stands, that all its figures are right, and that no layout of the same rows needs fewer planks than its
// bound.
package check
