// Package browsertest opens the HTML job sheet in a real browser. It is a module of its own, so that those who import
// the sheet never see the browser's driver; it has tests only, and they skip where no Chromium is installed.
package browsertest
