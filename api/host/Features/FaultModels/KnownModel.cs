using System.Text.Json;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Host.Features.FaultModels;

/// <summary>A usable model, read and compiled.</summary>
/// <param name="PairReasons">Why two faults are hard to tell apart, by <see cref="ReviewedPairs.Key"/>.</param>
public sealed record LoadedModel(CompiledModel Compiled, IReadOnlyDictionary<string, string> PairReasons);

/// <summary>A usable model by its name; itself it is read when it is first asked for, once for all who ask.</summary>
/// <param name="sha256">Of the whole text, shared pieces put in.</param>
/// <param name="packed">That text, packed.</param>
/// <param name="read">Called until it has once given the model.</param>
public sealed class KnownModel(string id, string title, string revision, string sha256, Func<byte[]> packed, Func<LoadedModel> read)
{
    private readonly Lock reading = new();
    private volatile LoadedModel? loaded;

    public string Id => id;

    public string Title => title;

    public string Revision => revision;

    public string Sha256 => sha256;

    /// <summary>The model.json.</summary>
    public required string File { get; init; }

    /// <summary>From the user's own folder.</summary>
    public bool Own { get; init; }

    /// <summary>The model of ours that it builds on, and whose published limits are its own as well.</summary>
    public string? BaseId { get; init; }

    /// <exception cref="FaultModelUnusableException">It cannot be read after all; the message says why. Who asks next tries again.</exception>
    public LoadedModel Loaded
    {
        get
        {
            if (loaded is { } known)
            {
                return known;
            }

            lock (reading)
            {
                return loaded ??= Read();
            }
        }
    }

    public byte[] Packed() => packed();

    private LoadedModel Read()
    {
        try
        {
            return read();
        }
        catch (Exception e) when (e is FaultModelException or JsonException or IOException or InvalidDataException or UnauthorizedAccessException)
        {
            throw new FaultModelUnusableException($"The fault model \"{id}\" cannot be read: {e.Message} Install the program again and start the host; nothing of the record is lost.");
        }
    }
}
