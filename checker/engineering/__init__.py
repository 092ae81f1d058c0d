"""Engineering functions: one subject a module, plain floats in SI, each with its source."""
