package forest

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestTheLeastNumberIsTheRoot(t *testing.T) {
	f := New(6)
	require.True(t, f.Join(4, 2))
	require.True(t, f.Join(5, 4))
	require.False(t, f.Join(2, 5), "already together")
	require.True(t, f.Join(1, 3))
	for i, root := range []int{0, 1, 2, 1, 2, 2} {
		require.Equal(t, root, f.Root(i))
	}
	require.True(t, f.Join(3, 5))
	require.Equal(t, 1, f.Root(4))
}
