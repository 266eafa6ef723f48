package harness

// OnBody tells the joint between a part's body and the metal that it is screwed to.
func (h *Harness) OnBody(e *Element) bool {
	return e.Kind == Resistance && e.Part != None && h.Parts[e.Part].BodyGround && h.Parts[e.Part].BodyJoint == e.ID
}

// Grounds tells a joint to the bodywork: of a ground, or of a part's own body.
func (h *Harness) Grounds(e *Element) bool {
	return e.Kind == Resistance && e.Part != None && h.Parts[e.Part].Kind == Ground || h.OnBody(e)
}
