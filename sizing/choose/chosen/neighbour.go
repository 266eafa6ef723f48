package chosen

// Neighbour is the size or rating beside a chosen one, and why it was not
// taken. Size is "" where there is none. A Size without Fails would do as well.
type Neighbour struct {
	Size  string
	Fails []Fail
}

// Fail is one rule that a neighbour breaks.
type Fail struct {
	Rule  string  // handling earth heat protection drop series; of a fuse: continuous start smallest stock bought wire holder
	Of    string  // the load, fuse or wire that it is about, "" where it is the thing itself
	Has   float64 // A, V or mm2
	Limit float64 // of the same unit
	Text  string
}
