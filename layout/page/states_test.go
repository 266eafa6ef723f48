package page

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// TestLettersOfStates: three and more in a row are a span.
func TestLettersOfStates(t *testing.T) {
	require.Equal(t, "a c–f j", StateLetters([]int{0, 2, 3, 4, 5, 7}))
	require.Equal(t, "a b", StateLetters([]int{0, 1}))
	require.Equal(t, []string{"z", "aa", "ba"}, []string{StateLetter(18), StateLetter(19), StateLetter(38)})
}
