module example.net/stranger

go 1.26.0

require example.com/seatline v0.0.0

require (
	github.com/pelletier/go-toml/v2 v2.4.3 // indirect
	github.com/richardlehane/mscfb v1.0.9 // indirect
	github.com/richardlehane/msoleps v1.0.6 // indirect
	golang.org/x/net v0.62.0 // indirect
	golang.org/x/text v0.43.0 // indirect
	gonum.org/v1/gonum v0.17.0 // indirect
)

replace example.com/seatline => ../..
