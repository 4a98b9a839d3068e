using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;
using FuelHistory.Host.Features.FaultModels;
using FuelHistory.Host.Features.LimitsLibrary;

namespace FuelHistory.Host.Shipped;

/// <summary>The JSON files of fault models and limits as they lie now: one hash over all of them, and the bytes of those that are wanted later.</summary>
internal sealed class ShippedFiles
{
    private readonly string faultModels;
    private readonly SortedDictionary<string, byte[]> reviewed = new(StringComparer.Ordinal), limits = new(StringComparer.Ordinal);

    /// <exception cref="IOException">A file cannot be read.</exception>
    public ShippedFiles(string faultModels, string limitsLibrary)
    {
        this.faultModels = faultModels;
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        Add(hash, faultModels, reviewed, name => Path.GetFileName(name) == ReviewedPairs.FileName);
        Add(hash, limitsLibrary, limits, name => !name.Contains('/', StringComparison.Ordinal) && LibraryFolder.IsPart(name));
        Sha256 = Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    /// <summary>Changes with any byte, any name and any file more or less.</summary>
    public string Sha256 { get; }

    /// <summary>The library's files, name and text.</summary>
    public IEnumerable<(string Name, string Text)> Limits => limits.Select(f => (f.Key, Text(f.Value)));

    /// <summary>The remarks beside a model.json; null where there are none.</summary>
    public string? ReviewedBeside(string path) =>
        reviewed.TryGetValue(Name(faultModels, Path.Combine(Path.GetDirectoryName(path)!, ReviewedPairs.FileName)), out var bytes) ? Text(bytes) : null;

    private static string Text(byte[] bytes)
    {
        using StreamReader reader = new(new MemoryStream(bytes));
        return reader.ReadToEnd();
    }

    private static void Add(IncrementalHash hash, string folder, SortedDictionary<string, byte[]> kept, Func<string, bool> keeps)
    {
        Span<byte> length = stackalloc byte[sizeof(long)];
        foreach (var (name, path) in Directory.EnumerateFiles(folder, "*.json", SearchOption.AllDirectories)
            .Select(path => (Name: Name(folder, path), Path: path)).OrderBy(f => f.Name, StringComparer.Ordinal))
        {
            var bytes = File.ReadAllBytes(path);
            // with the length between name and content no two sets of files run together into the same bytes
            BinaryPrimitives.WriteInt64LittleEndian(length, bytes.LongLength);
            hash.AppendData(Encoding.UTF8.GetBytes(name));
            hash.AppendData(length);
            hash.AppendData(bytes);
            if (keeps(name))
            {
                kept[name] = bytes;
            }
        }
    }

    private static string Name(string folder, string path) => Path.GetRelativePath(folder, path).Replace('\\', '/');
}
