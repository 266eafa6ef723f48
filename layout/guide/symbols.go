package guide

// symbols draws the symbol set with a word for each.
func symbols(s *sheaf) {}
