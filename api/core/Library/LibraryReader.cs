using System.Text.Json;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.Library;

/// <summary>JSON texts to a <see cref="LimitsLibrary"/>. Unknown, duplicate and missing members are refused with file and line.</summary>
public static class LibraryReader
{
    /// <summary>The file that holds the sources; every other one holds limits.</summary>
    public const string Sources = "sources.json";

    private const string LimitSchema = "fuelhistory/limits/1", SourceSchema = "fuelhistory/limit-sources/1";

    /// <param name="files">Name and text.</param>
    /// <exception cref="LibraryException">A text is no part of a library; the message names file, line and member.</exception>
    public static LimitsLibrary Read(IEnumerable<(string Name, string Text)> files)
    {
        List<LibraryLimit> limits = [];
        Dictionary<string, Source> sources = [];
        foreach ((string name, string text) in files)
        {
            if (name == Sources)
            {
                SourceFile file = Part<SourceFile>(name, text);
                Expect(name, file.Schema, SourceSchema);
                sources = new(file.Sources);
            }
            else
            {
                LimitFile file = Part<LimitFile>(name, text);
                Expect(name, file.Schema, LimitSchema);
                limits.AddRange(file.Limits);
            }
        }

        return new LimitsLibrary(limits, sources);
    }

    private static T Part<T>(string name, string text)
    {
        try
        {
            return JsonSerializer.Deserialize<T>(text, FaultModelReader.Strict) ?? throw new LibraryException($"{name} holds null instead of an object.");
        }
        catch (JsonException e)
        {
            throw new LibraryException($"{name}, line {(e.LineNumber ?? 0) + 1}, {e.Path}: {e.Message}");
        }
    }

    private static void Expect(string name, string found, string schema)
    {
        if (found != schema)
        {
            throw new LibraryException($"{name}: schema is \"{found}\"; this program reads \"{schema}\".");
        }
    }
}

/// <summary>A limits library that cannot be used; the message says where and why.</summary>
public sealed class LibraryException(string message) : Exception(message);
