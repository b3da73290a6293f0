package sheet

// german holds every word in German, by key.
var german = map[string]string{}
