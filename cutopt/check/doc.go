// Package check recounts plans. [Plan] measures a plan on geometry of its own and lists everything that breaks a rule;
// [Proof] recomputes its bound from the certificate. Neither shares code with the packages that make plans: this
// package links the model, the measures, the bare problem, the certificate and the recount, and nothing else of the
// module.
//
// Whoever receives a plan from elsewhere calls both: an empty list and a nil error together mean that the plan can be
// laid as it stands, that its figures are right, and that no layout of the same rows needs fewer planks than its bound.
//
// Some of what a plan tells cannot be recounted from what it carries, and is only held within limits:
//
//   - Order.Fewest is of another floor, which the plan does not hold: it lies between the bound and the planks of the
//     plan, and as many boxes are bought for it. What is said of fewer boxes than those bought rests on it,
//     Bound.Proven too; what is bought does not.
//   - Where walls run neither along the rows nor square to them, or a pipe stands in the floor, straight cuts leave
//     more open than the slivers that are told of: their area is then bounded from both sides, and so is their number
//     where they touch. That what lies open may lie open is recounted either way.
//   - That an edge row is forced is recounted in rectangles, and in rooms whose walls are square to each other, at
//     least two planks apart, without doorways, pipes, jogs or breaks; elsewhere it is believed.
//   - How a job that is begun stands - what lies, what is here, bought and brought along, how runs started in the plan
//     before - is what its plan tells. It has to hang together; whether it is so can be seen on site only.
package check
