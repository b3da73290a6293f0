module plank.example

go 1.26.0

require (
	codeberg.org/go-pdf/fpdf v0.12.0
	github.com/go-json-experiment/json v0.0.0-20260213210345-44df1a37e875
	github.com/google/go-cmp v0.7.0
	github.com/peterstace/simplefeatures v0.50.0
	github.com/rogpeppe/go-internal v1.16.0
	github.com/santhosh-tekuri/jsonschema/v6 v6.0.3
	github.com/spf13/pflag v1.1.0
	go.yaml.in/yaml/v4 v4.0.0
	golang.org/x/image v0.47.0
	golang.org/x/term v0.48.0
	gonum.org/v1/gonum v0.17.0
)

require (
	golang.org/x/sys v0.50.0 // indirect
	golang.org/x/text v0.43.0 // indirect
	golang.org/x/tools v0.51.0 // indirect
)
