module example.com/loomfolio

go 1.26.0

require (
	github.com/go-fonts/dejavu v0.3.2
	github.com/goccy/go-graphviz v0.2.10
	github.com/gofrs/flock v0.13.2
	github.com/jung-kurt/gofpdf v1.16.2
	github.com/stretchr/testify v1.12.1
	github.com/tetratelabs/wazero v1.10.1
	golang.org/x/image v0.47.0
	golang.org/x/sys v0.49.0
	golang.org/x/text v0.44.0
	gopkg.in/yaml.v3 v3.0.1
)

require (
	github.com/disintegration/imaging v1.6.2 // indirect
	github.com/flopp/go-findfont v0.1.0 // indirect
	github.com/fogleman/gg v1.3.0 // indirect
	github.com/golang/freetype v0.0.0-20170609003504-e2365dfdc4a0 // indirect
	go.yaml.in/yaml/v3 v3.0.5 // indirect
)
