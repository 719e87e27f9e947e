package paper

// The sizes that a photograph is kept and shown in: the longer side in points, and the grade of 100 as the JPEG encoder has it.
const (
	keptSide   = 2560 // a stamped number can be read off a photograph of the whole bulkhead
	keptGrade  = 82
	shownSide  = 480
	shownGrade = 70
)

// Kept is a photograph as the shop keeps it: upright, JPEG, no larger than is of use, with nothing of the camera's own notes (place, time,
// serial numbers) left in it. The same bytes give the same bytes. Errors are of code Invalid and say what is wrong with it.
func Kept(raw []byte) ([]byte, error) { return remade(raw, keptSide, keptGrade) }

// Shown is a photograph small enough to stand beside others on a screen. Otherwise it is as Kept.
func Shown(raw []byte) ([]byte, error) { return remade(raw, shownSide, shownGrade) }

func remade(raw []byte, side, grade int) ([]byte, error) {
	img, turn, err := decoded(raw)
	if err != nil {
		return nil, err
	}
	return asJPEG(turned(scaled(img, side, turn >= 5, map[int]bool{}), turn), grade)
}
