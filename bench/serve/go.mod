module roomful/bench/serve

go 1.26.0
