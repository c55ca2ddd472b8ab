"""placeholder until content"""
from ..spec import Calculator
TOOLS = ("rotary cutter", "shears", "powered knife", "tearing", "snips", "sewing machine", "iron")
CLOTHS = ("lawn", "woven", "gauze", "cord", "pile", "knit", "stretch", "bias")
CALCULATOR = Calculator("safe-cutting-checklist", "Safe cutting", "", [], [], lambda given: ({}, []))
