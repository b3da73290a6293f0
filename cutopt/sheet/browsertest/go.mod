module plank.example/cutopt/sheet/browsertest

go 1.26.0

require (
	github.com/chromedp/cdproto v0.159.0
	github.com/chromedp/chromedp v0.23.0
	plank.example v0.0.0
)

require (
	codeberg.org/go-pdf/fpdf v0.12.0 // indirect
	github.com/go-json-experiment/json v0.0.0-20260213210345-44df1a37e875 // indirect
	go.yaml.in/yaml/v4 v4.0.0 // indirect
	golang.org/x/image v0.47.0 // indirect
	golang.org/x/sys v0.50.0 // indirect
	golang.org/x/text v0.43.0 // indirect
	gonum.org/v1/gonum v0.17.0 // indirect
)

replace plank.example => ../../..
