package disk

import (
	"fmt"
	"os"
	"path/filepath"
	"time"
)

// Between two looks at a lock that another run has.
const between = 20 * time.Millisecond

// Lock holds a path for this run alone, so that it can be read, changed and written
// again; it waits up to a time for another run. The path itself is left alone: the
// lock is a file beside it, which release takes away.
func Lock(path string, wait time.Duration) (release func(), err error) {
	place, err := behind(path)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	name := filepath.Join(filepath.Dir(place), prefix+"lock-"+filepath.Base(place))
	for until := time.Now().Add(wait); ; time.Sleep(between) {
		file, err := os.OpenFile(name, os.O_RDWR|os.O_CREATE, 0o600)
		if err != nil {
			return nil, fmt.Errorf("cannot lock %s: %w", path, plain(err))
		}
		_ = file.Close()
		if lock := locked(name); lock != nil {
			m := making{file, lock}
			return m.drop, nil
		}
		if time.Now().After(until) {
			return nil, fmt.Errorf("another run is changing %s and does not end", path)
		}
	}
}
