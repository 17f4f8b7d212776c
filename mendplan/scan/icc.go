package scan

// describeProfile says in words what is done about colour.
func (h *header) describeProfile() {
	if h.icc != nil {
		h.Profile = "embedded ICC profile, not applied"
	}
}
