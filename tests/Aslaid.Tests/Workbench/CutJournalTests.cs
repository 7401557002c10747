using System.IO;
using Aslaid.Workbench;
using Microsoft.Data.Sqlite;

namespace Aslaid.Tests;

/// <summary>A chain of hashes cut short is still a chain: the rest of the file must tell.</summary>
public sealed class CutJournalTests
{
    private const string ForgetLayers = "DELETE FROM project WHERE name LIKE 'derived%';";

    [Theory]
    [InlineData("the end of the journal is missing", "DELETE FROM journal WHERE id = (SELECT max(id) FROM journal)")]
    [InlineData("holds batch", ForgetLayers + "DELETE FROM journal WHERE id > 3")]
    [InlineData("holds raw shots up to row", ForgetLayers + "DELETE FROM batches; DELETE FROM journal WHERE id > 3")]
    [InlineData("holds raw shots up to row", "INSERT INTO raw_shots(id, batch, line, shot) VALUES (99999, 1, 1, 'x')")]
    [InlineData("made from another journal", "UPDATE project SET value = replace(value, substr(value, 1, 1), 'x') WHERE name = 'derived_head'")]
    [InlineData("made from another journal", "UPDATE project SET value = '2' WHERE name = 'derived_position'")]
    [InlineData("made from another journal", "UPDATE project SET value = '' WHERE name = 'derived_position'")]
    [InlineData("made from another journal", "DELETE FROM project WHERE name = 'derived_head'")]
    public void Open_WhatTheJournalDoesNotTellOf_IsNoticed(string says, string sql)
    {
        using var folder = new TempFolder();
        TrenchSampleTests.Take(folder["site.gpkg"]);
        Change(folder["site.gpkg"], sql);
        var check = CommandLine.Run("check", folder["site.gpkg"]);
        Assert.Equal(2, check.Exit);
        Assert.Contains(says, check.Error, StringComparison.Ordinal);
        Assert.Contains("changed outside Aslaid", check.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Open_LayersNeverWritten_Opens()
    {
        using var folder = new TempFolder();
        TrenchSampleTests.Take(folder["site.gpkg"]);
        Change(folder["site.gpkg"], ForgetLayers);
        using var session = ProjectSession.Open(folder["site.gpkg"], TimeProvider.System, readOnly: true);
        Assert.False(session.IsPublished);
        Assert.NotEqual(0, session.Record().Runs.Count);
    }

    [Fact]
    public void Open_EntryOfANewerKind_NamesItAndAsksForTheNewerProgram()
    {
        using var folder = new TempFolder();
        TrenchSampleTests.Take(folder["site.gpkg"]);
        var position = Append(folder["site.gpkg"], at => $$"""{"position":{{at}},"time":"2026-03-12T09:00:00.0000000+00:00","by":"Tester","by_proof":"typed","why":"","kind":"of-tomorrow"}""");
        var check = CommandLine.Run("check", folder["site.gpkg"]);
        Assert.Equal(2, check.Exit);
        Assert.Contains($"Journal entry {position} of", check.Error, StringComparison.Ordinal);
        Assert.Contains("a newer program wrote it", check.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", check.Error, StringComparison.Ordinal);
    }

    private static void Change(string path, string sql)
    {
        using var connection = Open(path);
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        Assert.True(command.ExecuteNonQuery() > 0);
    }

    /// <summary>Appends bytes as an entry whose hash fits.</summary>
    private static long Append(string path, Func<long, string> entry)
    {
        using var connection = Open(path);
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT id, hash FROM journal ORDER BY id DESC LIMIT 1";
        long position;
        byte[] before;
        using (var row = command.ExecuteReader())
        {
            Assert.True(row.Read());
            (position, before) = (row.GetInt64(0) + 1, (byte[])row[1]);
        }

        var text = entry(position);
        command.CommandText = "INSERT INTO journal(id, entry, hash) VALUES ($id, $entry, $hash)";
        command.Parameters.AddWithValue("$id", position);
        command.Parameters.AddWithValue("$entry", text);
        command.Parameters.AddWithValue("$hash", Record.JournalChain.Next(before, System.Text.Encoding.UTF8.GetBytes(text)));
        Assert.Equal(1, command.ExecuteNonQuery());
        return position;
    }

    private static SqliteConnection Open(string path)
    {
        var connection = new SqliteConnection($"Data Source={path};Pooling=False");
        connection.Open();
        return connection;
    }
}
