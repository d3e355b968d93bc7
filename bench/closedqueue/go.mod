module roomful/bench/closedqueue

go 1.26.0

require (
	github.com/fschuetz04/simgo v0.5.0
	roomful v0.0.0
)

require github.com/goccy/go-yaml v1.19.2 // indirect

replace roomful => ../..
