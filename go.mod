module roomful

go 1.26
