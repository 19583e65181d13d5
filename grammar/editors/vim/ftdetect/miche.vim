" Files that end in .miche.
autocmd BufNewFile,BufRead *.miche setfiletype miche
