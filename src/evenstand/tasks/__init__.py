"""What a person does, one module for each step: typed inputs in, a result out."""
