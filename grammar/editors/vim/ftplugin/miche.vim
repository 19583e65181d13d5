" How lines of a formula are written.
if exists('b:did_ftplugin')
  finish
endif
let b:did_ftplugin = 1

setlocal commentstring=#\ %s comments=b:#
" Prose stands four columns deeper than its step, and tabs count as one column.
setlocal expandtab shiftwidth=4 softtabstop=4 autoindent
setlocal textwidth=0
if executable('miche')
  " `:make` finds every problem of the file; `gq` brings lines into the one layout.
  setlocal makeprg=miche\ check\ --format\ short\ %:S
  setlocal errorformat=%f:%l:%c:\ %trror[%*[^]]]:\ %m,%f:%l:%c:\ %tarning[%*[^]]]:\ %m,%f:%l:%c:\ %tdvice[%*[^]]]:\ %m,%-G%.%#
endif

let b:undo_ftplugin = 'setlocal commentstring< comments< expandtab< shiftwidth< softtabstop< autoindent< textwidth< makeprg< errorformat<'
