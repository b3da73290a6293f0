package sheet_test

import (
	"fmt"
	"io"

	"plank.example/cutopt"
	"plank.example/cutopt/sheet"
	"plank.example/cutopt/sheet/paper"
)

// The documents in one call each, as tests of all of them like it.

func writeMap(w io.Writer, job *cutopt.Job, plan *cutopt.Plan, format sheet.Format, opt *sheet.Options) error {
	return writePicture(w, sheet.DocumentMap, job, plan, format, opt)
}

func writePlanks(w io.Writer, job *cutopt.Job, plan *cutopt.Plan, format sheet.Format, opt *sheet.Options) error {
	return writePicture(w, sheet.DocumentPlanks, job, plan, format, opt)
}

func writePicture(
	w io.Writer,
	d sheet.Document,
	job *cutopt.Job,
	plan *cutopt.Plan,
	format sheet.Format,
	opt *sheet.Options,
) error {
	s, err := sheet.New(job, plan, opt)
	switch {
	case err != nil:
		return err
	case format == sheet.FormatPDF:
		return paper.PDF(w, s, d)
	case format == sheet.FormatPNG:
		return paper.PNG(w, s, d)
	case format == sheet.FormatSVG && d == sheet.DocumentMap:
		return s.Map(w)
	case format == sheet.FormatSVG:
		return s.Planks(w)
	}
	return fmt.Errorf("%v is not written as %v", d, format)
}

func writeHTML(w io.Writer, job *cutopt.Job, plan *cutopt.Plan, opt *sheet.Options) error {
	s, err := sheet.New(job, plan, opt)
	if err != nil {
		return err
	}
	return s.HTML(w)
}

func writePDF(w io.Writer, job *cutopt.Job, plan *cutopt.Plan, opt *sheet.Options) error {
	return writePicture(w, sheet.DocumentSheet, job, plan, sheet.FormatPDF, opt)
}

func writeCuts(w io.Writer, job *cutopt.Job, plan *cutopt.Plan, format sheet.Format, opt *sheet.Options) error {
	s, err := sheet.New(job, plan, opt)
	if err != nil {
		return err
	}
	return s.Cuts(w, format)
}

func writeText(w io.Writer, job *cutopt.Job, plan *cutopt.Plan, opt *sheet.Options) error {
	s, err := sheet.New(job, plan, opt)
	if err != nil {
		return err
	}
	return s.Text(w)
}
