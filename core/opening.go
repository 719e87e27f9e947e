package core

// CheckOpening tells all that keeps a job from being opened as it is described. What it names is looked up where packs and plans are known.
func (j Job) CheckOpening() (errs []error) {
	if j.Extent.Kind == ExtentNamed && len(j.Extent.Names) == 0 {
		errs = append(errs, Errorf(Invalid, "name them with --name", "the extent names no unit and no subsystem"))
	}
	if j.Extent.Kind == ExtentBench && (len(j.Units) == 0 || j.Vehicle != nil) {
		errs = append(errs, Errorf(Invalid, "name the unit with --unit, and no vehicle", "a unit on the bench is a unit without a vehicle"))
	}
	if j.Brief.Originality < 0 || j.Brief.Originality > 4 {
		errs = append(errs, Errorf(Invalid, "write 1 to 4, or leave it out", "--originality %d", j.Brief.Originality))
	}
	return errs
}
