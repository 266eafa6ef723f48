package layout

import (
	"fmt"
	"path"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/harness"
)

// pictures are those that the description names, as they are printed, so that the archive's
// copy of it can be worked from. A number tells those of one name apart.
func pictures(h *harness.Harness) []sheet.Attachment {
	var out []sheet.Attachment
	for i, p := range h.Pictures {
		if p.There() {
			out = append(out, sheet.Attachment{
				Name: fmt.Sprintf("picture-%d-%s", i+1, path.Base(p.File)), MIME: "image/" + p.Form,
				Description: "The picture " + p.File + " of the description, as it is printed", Data: p.Data,
			})
		}
	}
	return out
}

// included are the files that the description includes, each under its own name where it
// lies beside it.
func included(h *harness.Harness) []sheet.Attachment {
	var out []sheet.Attachment
	for i, f := range h.File.Included {
		name := f.Path
		if path.Dir(name) != "." {
			name = fmt.Sprintf("included-%d-%s", i+1, path.Base(name))
		}
		out = append(out, sheet.Attachment{Name: name, MIME: "application/yaml", Description: "The file " + f.Path + " that the description includes", Data: f.Text})
	}
	return out
}
