//! What the server can do, as it tells an editor at the start.

use crate::edge::editor::position::Encoding;
use crate::edge::editor::tokens::KINDS;
use gen_lsp_types as lsp;

pub(super) fn capabilities(encoding: Encoding) -> lsp::ServerCapabilities {
    let triggers = ["{", "[", "\"", ".", " ", ",", ":"];
    let sync = lsp::TextDocumentSyncOptions {
        open_close: Some(true),
        change: Some(lsp::TextDocumentSyncKind::Incremental),
        save: Some(true.into()),
        ..lsp::TextDocumentSyncOptions::default()
    };
    let words = |list: &[&str]| list.iter().map(|word| (*word).to_owned()).collect::<Vec<String>>();
    lsp::ServerCapabilities {
        position_encoding: Some(match encoding {
            Encoding::Utf8 => lsp::PositionEncodingKind::UTF8,
            Encoding::Utf16 => lsp::PositionEncodingKind::UTF16,
        }),
        text_document_sync: Some(sync.into()),
        completion_provider: Some(lsp::CompletionOptions {
            trigger_characters: Some(words(&triggers)),
            ..lsp::CompletionOptions::default()
        }),
        hover_provider: Some(true.into()),
        definition_provider: Some(true.into()),
        references_provider: Some(true.into()),
        document_highlight_provider: Some(true.into()),
        document_symbol_provider: Some(true.into()),
        code_action_provider: Some(
            lsp::CodeActionOptions {
                code_action_kinds: Some(vec![lsp::CodeActionKind::QuickFix]),
                ..lsp::CodeActionOptions::default()
            }
            .into(),
        ),
        code_lens_provider: Some(lsp::CodeLensOptions::default()),
        document_link_provider: Some(lsp::DocumentLinkOptions::default()),
        document_formatting_provider: Some(true.into()),
        document_range_formatting_provider: Some(true.into()),
        rename_provider: Some(
            lsp::RenameOptions { prepare_provider: Some(true), ..lsp::RenameOptions::default() }.into(),
        ),
        folding_range_provider: Some(true.into()),
        inlay_hint_provider: Some(true.into()),
        semantic_tokens_provider: Some(
            lsp::SemanticTokensOptions {
                legend: lsp::SemanticTokensLegend { token_types: words(KINDS), token_modifiers: Vec::new() },
                range: Some(true.into()),
                full: Some(true.into()),
                ..lsp::SemanticTokensOptions::default()
            }
            .into(),
        ),
        workspace: Some(lsp::WorkspaceOptions {
            workspace_folders: Some(lsp::WorkspaceFoldersServerCapabilities {
                supported: Some(true),
                change_notifications: Some(true.into()),
            }),
            ..lsp::WorkspaceOptions::default()
        }),
        ..lsp::ServerCapabilities::default()
    }
}
