using System.Security.Cryptography;
using System.Text.Json;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Features.FaultModels;
using FuelHistory.Host.Features.LimitsLibrary;
using FuelHistory.Host.Sqlite;

namespace FuelHistory.Host.Shipped;

/// <summary>The shipped models and limits where they are just those that the build linted: nothing of them has to be read before it is asked for.</summary>
public sealed class CheckedAtBuild
{
    public const string FolderName = "checked-at-build";

    private readonly ShippedFiles files;

    private CheckedAtBuild(ShippedFiles files, IReadOnlyList<KnownModel> models) => (this.files, Models) = (files, models);

    public IReadOnlyList<KnownModel> Models { get; }

    /// <summary>Changes with any letter of any model or limit.</summary>
    public string Fingerprint => files.Sha256;

    /// <summary>The library's files, name and text, as they were when the hash was taken.</summary>
    public IEnumerable<(string Name, string Text)> Limits => files.Limits;

    /// <returns>Null where anything differs from what the build saw, or cannot be read: then all is read and linted at the start.</returns>
    /// <param name="folder">Where the build's stamp lies, with the models packed beside it.</param>
    public static CheckedAtBuild? Find(string folder, string faultModels, string limitsLibrary)
    {
        try
        {
            var path = Path.Combine(folder, BuildStamp.FileName);
            if (!File.Exists(path) || !Directory.Exists(faultModels) || !Directory.Exists(limitsLibrary)
                || JsonSerializer.Deserialize(File.ReadAllBytes(path), StampJson.Default.BuildStamp) is not { } stamp || stamp.Program != BuildStamp.ThisProgram)
            {
                return null;
            }

            ShippedFiles files = new(faultModels, limitsLibrary);
            if (files.Sha256 != stamp.Files)
            {
                return null;
            }

            var models = stamp.Models.Select(m => Model(m, File.ReadAllBytes(Path.Combine(folder, PackedName(m.Id))), Path.Combine(faultModels, m.File), files)).ToList();
            return models.Count == 0 || models.Contains(null) ? null : new CheckedAtBuild(files, [.. models.OfType<KnownModel>()]);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or JsonException)
        {
            return null;
        }
    }

    /// <summary>Reads and lints all, and puts the stamp into the folder if nothing is refused; an older stamp is gone in any case.</summary>
    /// <exception cref="StartException">Something is refused; the message says what, where and why.</exception>
    public static void Write(string folder, string faultModels, string limitsLibrary)
    {
        if (Directory.Exists(folder))
        {
            Directory.Delete(folder, recursive: true);
        }

        var models = new FaultModelFolder(faultModels);
        _ = new LibraryFolder(limitsLibrary, models);
        if (models.Refused is [var refused, ..])
        {
            throw new StartException($"{refused.File}: {string.Join(" ", refused.Reasons)}");
        }

        Directory.CreateDirectory(folder);
        List<StampedModel> stamped = [];
        foreach (var model in models.Known)
        {
            var packed = model.Packed();
            File.WriteAllBytes(Path.Combine(folder, PackedName(model.Id)), packed);
            var file = Path.GetRelativePath(faultModels, model.File).Replace('\\', '/');
            stamped.Add(new StampedModel(file, model.Id, model.Title, model.Revision, model.BaseId, model.Sha256, Sha256Of(packed)));
        }

        // last: a stamp without its models must never be found
        var stamp = new BuildStamp(BuildStamp.ThisProgram, new ShippedFiles(faultModels, limitsLibrary).Sha256, stamped);
        File.WriteAllBytes(Path.Combine(folder, BuildStamp.FileName), JsonSerializer.SerializeToUtf8Bytes(stamp, StampJson.Default.BuildStamp));
    }

    private static KnownModel? Model(StampedModel stamped, byte[] packed, string path, ShippedFiles files) => Sha256Of(packed) != stamped.PackedSha256 ? null
        : new KnownModel(stamped.Id, stamped.Title, stamped.Revision, stamped.Sha256, () => packed, () => Read(packed, path, files)) { File = path, BaseId = stamped.BaseId };

    private static LoadedModel Read(byte[] packed, string path, ShippedFiles files)
    {
        var reasons = files.ReviewedBeside(path);
        return new LoadedModel(new CompiledModel(FaultModelReader.ReadComposed(PackedText.Bytes(packed))), reasons is null ? [] : ReviewedPairs.Of(reasons));
    }

    private static string PackedName(string id) => $"{id}.json.gz";

    private static string Sha256Of(byte[] bytes) => Convert.ToHexStringLower(SHA256.HashData(bytes));
}
