module plank.example

go 1.26
