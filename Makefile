# Everything is done by run.py, so that a machine without make can do the same: python run.py demo, python run.py test.
PYTHON ?= python3

.PHONY: help setup demo open test check benchmark build clean

help:
	@$(PYTHON) run.py --help

setup demo open test check benchmark build clean:
	@$(PYTHON) run.py $@
