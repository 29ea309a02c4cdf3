mod contrast;
