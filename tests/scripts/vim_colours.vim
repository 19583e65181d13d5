" Prints the names of the syntax groups of every byte: a line for each line, the innermost group of each column.
" Run: vim -N -u NONE -i NONE -es -c 'set rtp^=grammar/editors/vim' -S this-file -- file
filetype on
syntax on
setfiletype miche
runtime! syntax/miche.vim
let s:out = []
for s:line in range(1, line('$'))
  let s:groups = []
  for s:column in range(1, len(getline(s:line)))
    call add(s:groups, synIDattr(synID(s:line, s:column, 1), 'name'))
  endfor
  call add(s:out, join(s:groups, ','))
endfor
call writefile(s:out, $COLOURS)
qall!
