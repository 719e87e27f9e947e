//go:build !linux

package sdk

import "errors"

// restrict refuses: a host on this system starts plugins without a confiner.
func (ConfinedStart) restrict() error { return errors.ErrUnsupported }

func (ConfinedStart) become() error { return errors.ErrUnsupported }
