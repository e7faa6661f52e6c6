package chart

// Clean is how text from sheets is written.
var Clean = clean
