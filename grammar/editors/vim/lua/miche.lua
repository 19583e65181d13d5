-- The language server of miche in Neovim 0.7 to 0.10: `require("miche").setup()`.
-- From 0.11 on Neovim does all of this by itself; see the README for the lines.
local M = {}

-- Where Neovim has no hints of its own (before 0.10), they stand at the end of the line.
local space = vim.api.nvim_create_namespace("miche-hints")
local asked = {}

local function label_of(hint)
  if type(hint.label) == "string" then
    return hint.label
  end
  local words = {}
  for _, piece in ipairs(hint.label) do
    table.insert(words, piece.value)
  end
  return table.concat(words)
end

local function draw(buffer, hints)
  vim.api.nvim_buf_clear_namespace(buffer, space, 0, -1)
  local lines = {}
  for _, hint in ipairs(hints) do
    local line = hint.position.line
    lines[line] = lines[line] or {}
    table.insert(lines[line], hint)
  end
  for line, found in pairs(lines) do
    table.sort(found, function(one, other)
      return one.position.character < other.position.character
    end)
    local words = {}
    for _, hint in ipairs(found) do
      table.insert(words, vim.trim(label_of(hint)))
    end
    local text = { { table.concat(words, "  "), "MicheHint" } }
    -- Before the problems, which come later and take more room.
    pcall(vim.api.nvim_buf_set_extmark, buffer, space, line, 0, { virt_text = text, priority = 1 })
  end
end

local show
show = function(client, buffer)
  asked[buffer] = (asked[buffer] or 0) + 1
  local turn = asked[buffer]
  vim.defer_fn(function()
    if turn ~= asked[buffer] or not vim.api.nvim_buf_is_loaded(buffer) or client.is_stopped() then
      return
    end
    local last = vim.api.nvim_buf_line_count(buffer)
    client.request("textDocument/inlayHint", {
      textDocument = { uri = vim.uri_from_bufnr(buffer) },
      range = { start = { line = 0, character = 0 }, ["end"] = { line = last, character = 0 } },
    }, function(problem, hints)
      if turn ~= asked[buffer] or not vim.api.nvim_buf_is_loaded(buffer) then
        return
      end
      if problem then
        -- The text changed while it was looked at: the next answer is about the text that is there now.
        if problem.code == -32801 then
          show(client, buffer)
        end
        return
      end
      draw(buffer, hints or {})
    end, buffer)
  end, 150)
end

-- The keys that Neovim has by itself from 0.11 on.
local function keys(buffer)
  local does = {
    K = vim.lsp.buf.hover,
    gd = vim.lsp.buf.definition,
    gra = vim.lsp.buf.code_action,
    grn = vim.lsp.buf.rename,
    grr = vim.lsp.buf.references,
    gO = vim.lsp.buf.document_symbol,
  }
  for key, what in pairs(does) do
    vim.keymap.set("n", key, what, { buffer = buffer })
  end
  vim.bo[buffer].omnifunc = "v:lua.vim.lsp.omnifunc"
end

local function attached(client, buffer)
  keys(buffer)
  if vim.lsp.inlay_hint then
    vim.lsp.inlay_hint.enable(true, { bufnr = buffer })
    return
  end
  show(client, buffer)
  vim.api.nvim_create_autocmd({ "TextChanged", "TextChangedI", "TextChangedP" }, {
    buffer = buffer,
    callback = function()
      show(client, buffer)
    end,
  })
  -- Old Neovims put off problems that come in while one types, and on a busy machine they have been seen to forget them.
  vim.api.nvim_create_autocmd("InsertLeave", {
    buffer = buffer,
    callback = function()
      show(client, buffer)
      vim.defer_fn(function()
        if vim.api.nvim_buf_is_loaded(buffer) and vim.api.nvim_get_mode().mode:sub(1, 1) ~= "i" then
          vim.diagnostic.show(nil, buffer)
        end
      end, 600)
    end,
  })
end

local function root_of(file)
  local folder = vim.fn.fnamemodify(file, ":p:h")
  local upwards = vim.fn.escape(folder, " ,;") .. ";"
  local found = vim.fn.finddir(".git", upwards)
  if found ~= "" then
    return vim.fn.fnamemodify(found, ":p:h:h")
  end
  -- In a work tree it is a file.
  found = vim.fn.findfile(".git", upwards)
  return found ~= "" and vim.fn.fnamemodify(found, ":p:h") or folder
end

local servers = {}

local function start(buffer)
  local root = root_of(vim.api.nvim_buf_get_name(buffer))
  if not servers[root] then
    servers[root] = vim.lsp.start_client({
      name = "miche",
      cmd = M.cmd,
      root_dir = root,
      on_attach = attached,
      on_exit = function()
        servers[root] = nil
      end,
    })
  end
  if servers[root] then
    vim.lsp.buf_attach_client(buffer, servers[root])
  end
end

-- `cmd`: where the program lies, if not on the path.
function M.setup(options)
  M.cmd = options and options.cmd or { "miche", "editor" }
  vim.cmd("highlight default link MicheHint NonText")
  vim.api.nvim_create_autocmd("FileType", {
    pattern = "miche",
    callback = function(event)
      start(event.buf)
    end,
  })
end

return M
